import { rolesThatWithdraw } from '../../../lib/board/roles.ts'
import { NewWithdrawal, type WithdrawalList } from '../../../lib/interchange/api.ts'
import type { Store, Withdrawal } from '../../store/store.ts'
import type { ApiParts } from '../api.ts'
import { ok, refuse } from '../reply.ts'
import { get, owner, post, type Route, signedIn } from '../routes.ts'
import { pictureReply } from './pictures.ts'

/** Taking something back from everybody, and for the owner what was taken back. */
export function withdrawalRoutes({ store, withdrawals }: ApiParts): readonly Route[] {
  return [
    post('/api/cases/:id/withdrawals', signedIn, NewWithdrawal, async ({ body, caller, params }) => {
      const place = await store.findCase(params.id ?? '')
      const role = place === null ? undefined : caller.access.roleIn(place)
      if (place === null || role === undefined || !rolesThatWithdraw.includes(role)) return refuse('not-permitted')
      const sender = { participant: caller.participant.id, role }
      return (await withdrawals.withdraw(place, body, sender)) === undefined ? refuse('not-found') : ok({})
    }),
    get('/api/cases/:id/withdrawals', signedIn, async ({ caller, params }) => {
      const place = await store.findCase(params.id ?? '')
      const role = place === null ? undefined : caller.access.roleIn(place)
      if (place === null || role === undefined || !rolesThatWithdraw.includes(role)) return refuse('not-permitted')
      if (!caller.isOwner) return ok({ withdrawals: null } satisfies WithdrawalList)
      return ok(await listed(store, await withdrawals.listOf(place.id)))
    }),
    get('/api/cases/:id/withdrawals/:withdrawal/picture', owner, async ({ params }) => {
      const found = await store.withdrawnPicture(params.id ?? '', params.withdrawal ?? '')
      return found === null ? refuse('not-found') : pictureReply(found, { 'Cache-Control': 'no-store' })
    }),
  ]
}

const listed = async (store: Store, found: readonly Withdrawal[]): Promise<WithdrawalList> => ({
  withdrawals: await Promise.all(
    found.map(async ({ id, records, reason, by, at, content }) => {
      const person = await store.findParticipant(by)
      const { name = '', affiliation = '' } = person ?? {}
      return { id, kind: records[0]?.kind ?? '', reason, by: { id: by, name, affiliation }, at, content }
    }),
  ),
})
