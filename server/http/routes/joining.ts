import {
  type InvitationPreview,
  type InvitationScope,
  type JoinAnswer,
  JoinRequest,
  type Me,
} from '../../../lib/interchange/api.ts'
import type { LinkState } from '../../people/people.ts'
import type { Store } from '../../store/store.ts'
import type { ApiParts } from '../api.ts'
import { ok, refuse } from '../reply.ts'
import { anyone, emptyBody, get, post, type Route, signedIn } from '../routes.ts'

/** Who I am, what a link is for, coming in and leaving. */
export function joiningRoutes({ store, people, throttle, origins, log }: ApiParts): readonly Route[] {
  const missed = (address: string) => {
    throttle.countMiss(address)
    log.info('link-unknown', { address })
  }
  return [
    get('/api/me', anyone, async ({ caller }) =>
      ok({ participant: caller?.participant ?? null, isOwner: caller?.isOwner ?? false } satisfies Me),
    ),
    get('/api/invitations/:token/preview', anyone, async ({ request, params }) => {
      const address = origins.addressOf(request)
      if (throttle.isBlocked(address)) return refuse('too-many-attempts')
      const link = await people.inspectLink(params.token ?? '')
      if (link.state === 'unknown') missed(address)
      return ok(await preview(link, store))
    }),
    post('/api/join', anyone, JoinRequest, async ({ request, body: { token, ...who }, caller }) => {
      const address = origins.addressOf(request)
      if (throttle.isBlocked(address)) return refuse('too-many-attempts')
      const outcome = await people.join(token, who, caller)
      if (outcome.state === 'unknown') missed(address)
      if (outcome.state !== 'joined') return refuse(`link-${outcome.state}`)
      const { participant, invitation, cookie } = outcome
      const { role, scope } = invitation
      log.info('joined', { participant: participant.id, invitation: invitation.id, role })
      const answer: JoinAnswer = { participant, role, scope, destination: destinationOf(scope) }
      return { ...ok(answer), ...(cookie === null ? {} : { headers: { 'Set-Cookie': cookie } }) }
    }),
    post('/api/leave', signedIn, emptyBody, async ({ caller }) => {
      const cleared = await people.leave(caller)
      log.info('left', { participant: caller.participant.id })
      return { ...ok({}), headers: { 'Set-Cookie': cleared, 'Clear-Site-Data': '"cache"' } }
    }),
  ]
}

async function preview(link: LinkState, store: Store): Promise<InvitationPreview> {
  if (link.state !== 'open') return link
  const { role, scope, expiresAt } = link.invitation
  return { state: 'open', role, scope, expiresAt, label: await labelOf(scope, store) }
}

async function labelOf(scope: InvitationScope, store: Store): Promise<string> {
  switch (scope.kind) {
    case 'installation':
      return ''
    case 'programme':
      return (await store.listProgrammes()).find(({ id }) => id === scope.id)?.label ?? ''
    case 'case':
      return (await store.findCase(scope.id))?.label ?? ''
  }
}

function destinationOf(scope: InvitationScope): string {
  return scope.kind === 'installation' ? '/' : `/${scope.kind}/${scope.id}`
}
