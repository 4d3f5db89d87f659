import type { ServerClock } from '../../../lib/interchange/api.ts'
import type { ApiParts } from '../api.ts'
import { ok } from '../reply.ts'
import { anyone, get, type Route } from '../routes.ts'

/** The time of the server, which pages hold their own clock against. */
export const clockRoutes = ({ now }: ApiParts): readonly Route[] => [
  get('/api/clock', anyone, async () => ok({ now: now().toISOString() } satisfies ServerClock)),
]
