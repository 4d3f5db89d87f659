import type { Health } from '../../../lib/interchange/api.ts'
import type { ApiParts } from '../api.ts'
import { ok } from '../reply.ts'
import { anyone, get, type Route } from '../routes.ts'

/** For whoever watches the server: it answers, and so does its store. */
export const healthRoutes = ({ store }: ApiParts): readonly Route[] => [
  get('/healthz', anyone, async () => {
    await store.countOwners()
    return ok({ status: 'ok' } satisfies Health)
  }),
]
