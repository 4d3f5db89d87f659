import { CasesHeld, EraseCase, type ErasureList, type ErasureReceipt } from '../../../lib/interchange/api.ts'
import type { Erasure, Store } from '../../store/store.ts'
import type { ApiParts } from '../api.ts'
import { ok, refuse } from '../reply.ts'
import { get, owner, post, type Route, signedIn } from '../routes.ts'

/** Erasing a case for good, and what remains of that: receipts. */
export function erasureRoutes({ store, exchange, programmeChanged }: ApiParts): readonly Route[] {
  return [
    post('/api/cases/:id/erase', owner, EraseCase, async ({ caller, params, body }) => {
      const place = await store.findCase(params.id ?? '')
      if (place === null) return refuse('not-found')
      if (body.label.trim() !== place.label.trim()) return refuse('label-differs')
      const erasure = await exchange.erase(place.id, caller.participant.id)
      programmeChanged(place.programme)
      return ok(await receiptOf(store, erasure))
    }),
    get('/api/erasures', owner, async () => {
      const erasures = await store.listErasures()
      return ok({ erasures: await Promise.all(erasures.map((each) => receiptOf(store, each))) } satisfies ErasureList)
    }),
    // Ids of cases are random: who asks about one has been told it before.
    post('/api/erasures/among', signedIn, CasesHeld, async ({ body }) => {
      const erased = new Set((await store.listErasures()).map(({ caseId }) => caseId))
      return ok({ cases: body.cases.filter((id) => erased.has(id)) } satisfies CasesHeld)
    }),
  ]
}

async function receiptOf(store: Store, { by, ...erasure }: Erasure): Promise<ErasureReceipt> {
  const person = await store.findParticipant(by)
  return {
    ...erasure,
    by: person && { id: person.id, name: person.name, affiliation: person.affiliation },
  }
}
