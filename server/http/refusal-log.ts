import { ApiError, type ApiErrorCode } from '../../lib/interchange/api.ts'
import type { Log } from '../log.ts'
import type { Caller } from '../people/people.ts'
import type { Reply } from './reply.ts'

/** Refusals that may be tries to get around a right or a bound. An address that is blocked is told of by what blocked it. */
const loggedCodes: readonly ApiErrorCode[] = ['cross-site', 'not-permitted', 'too-many-requests']

/** Where the log would tell what the board keeps secret: who asked without a name, and who voted. */
const isSecret = (pattern: string): boolean => /\/(unnamed|ballot)\b/.test(pattern)

/** Logs a refusal with the pattern of its address: the address itself may carry a token. */
export function logRefusal(log: Log, pattern: string, caller: Caller | undefined, { status, body }: Reply): void {
  const code = status < 400 ? undefined : ApiError.safeParse(body).data?.error.code
  if (code === undefined || !loggedCodes.includes(code)) return
  const facts = { code, route: pattern }
  const isTold = caller !== undefined && !isSecret(pattern)
  log.info('request-refused', isTold ? { ...facts, participant: caller.participant.id } : facts)
}
