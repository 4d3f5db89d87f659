import { fromBase64, toBase64 } from 'lib0/buffer'
import * as z from 'zod/mini'
import { Moment, ParticipantId } from '../../board/identity.ts'
import { Role } from '../../board/roles.ts'

/** One update of a document's log: who wrote it, in which role, when, and the bytes of the Yjs update. */
export interface LogLine {
  readonly seq: number
  readonly author: ParticipantId
  readonly role: Role
  readonly at: string
  readonly update: Uint8Array
}

const Line = z.strictObject({
  seq: z.int().check(z.minimum(1)),
  author: ParticipantId,
  role: Role,
  at: Moment,
  update: z.string().check(z.regex(/^[A-Za-z0-9+/]*={0,2}$/)),
})

/** One JSON object a line, the update in Base64 (RFC 4648). */
export const writeLog = (lines: readonly LogLine[]): string =>
  lines.map(({ update, ...line }) => `${JSON.stringify({ ...line, update: toBase64(update) })}\n`).join('')

/** @returns the lines, or the number of the first line (from 1) that cannot be one, or is out of order */
export function readLog(text: string): readonly LogLine[] | { readonly badLine: number } {
  const lines: LogLine[] = []
  for (const [index, row] of text.split('\n').entries()) {
    if (row === '') continue
    const line = parsed(row)
    if (line === undefined || line.seq !== lines.length + 1) return { badLine: index + 1 }
    lines.push(line)
  }
  return lines
}

function parsed(row: string): LogLine | undefined {
  try {
    const line = Line.safeParse(JSON.parse(row))
    return line.success ? { ...line.data, update: fromBase64(line.data.update) } : undefined
  } catch {
    return undefined
  }
}
