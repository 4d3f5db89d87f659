import { timingSafeEqual } from 'node:crypto'
import type { IncomingMessage } from 'node:http'
import type { Health } from '../../../lib/interchange/api.ts'
import type { ApiParts } from '../api.ts'
import { ok, refuse } from '../reply.ts'
import { anyone, get, type Route } from '../routes.ts'

/**
 * For whoever watches the server: `/healthz` says that the process answers, `/readyz` that it may be sent people (its store
 * reads and writes too, and it is not about to end), `/metrics` counts.
 */
export const healthRoutes = ({ store, metrics, metricsToken, isClosing, canStore }: ApiParts): readonly Route[] => [
  get('/healthz', anyone, async () => ok({ status: 'ok' } satisfies Health)),
  get('/readyz', anyone, async () => {
    if (isClosing() || !canStore()) return refuse('unavailable')
    await store.countOwners()
    return ok({ status: 'ok' } satisfies Health)
  }),
  get('/metrics', anyone, async ({ request }) => {
    if (!mayCount(request, metricsToken)) return refuse('not-permitted')
    return {
      ...ok(new TextEncoder().encode(await metrics.text())),
      headers: { 'Content-Type': metrics.contentType },
    }
  }),
]

/** Numbers tell how busy a clinic is: they are for this computer, not for what a proxy lets in, or for whoever has the token. */
function mayCount({ headers, socket }: IncomingMessage, token: string | undefined): boolean {
  if (token !== undefined) return isSame(headers.authorization ?? '', `Bearer ${token}`)
  const isLocal = /^(::1|(::ffff:)?127\.\d+\.\d+\.\d+)$/.test(socket.remoteAddress ?? '')
  return isLocal && headers['x-forwarded-for'] === undefined && headers.forwarded === undefined
}

function isSame(given: string, wanted: string): boolean {
  const [a, b] = [Buffer.from(given), Buffer.from(wanted)]
  return a.length === b.length && timingSafeEqual(a, b)
}
