import {
  type CreatedInvitation,
  type Invitation,
  type InvitationList,
  NewInvitation,
} from '../../../lib/interchange/api.ts'
import type { Store, Invitation as StoredInvitation } from '../../store/store.ts'
import type { ApiParts } from '../api.ts'
import { created, ok, refuse } from '../reply.ts'
import { emptyBody, get, owner, post, type Route } from '../routes.ts'

/** The owner's invitation links. */
export function invitationRoutes({ store, people }: ApiParts): readonly Route[] {
  const find = async (id: string) => (await store.listInvitations()).find((each) => each.id === id)
  return [
    get('/api/invitations', owner, async () =>
      ok({ invitations: (await store.listInvitations()).map(withoutHash) } satisfies InvitationList),
    ),
    post('/api/invitations', owner, NewInvitation, async ({ body }) => {
      const { expiresAt = null, accessUntil = null, ...wanted } = body
      if (!(await scopeExists(store, wanted.scope))) return refuse('not-found')
      const { invitation, token } = await people.invite({ ...wanted, expiresAt, accessUntil })
      return created({ invitation: withoutHash(invitation), path: `/join/${token}` } satisfies CreatedInvitation)
    }),
    post('/api/invitations/:id/revoke', owner, emptyBody, async ({ params }) => {
      const id = params.id ?? ''
      const revoked = (await people.revoke(id)) ? await find(id) : undefined
      return revoked === undefined ? refuse('not-found') : ok(withoutHash(revoked))
    }),
  ]
}

const withoutHash = ({ tokenHash: _, ...told }: StoredInvitation): Invitation => told

async function scopeExists(store: Store, { kind, id }: NewInvitation['scope']): Promise<boolean> {
  if (kind === 'case') return (await store.findCase(id)) !== null
  return (await store.listProgrammes()).some((programme) => programme.id === id)
}
