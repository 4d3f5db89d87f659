import type { IncomingMessage } from 'node:http'
import type { ParticipantId } from '../../lib/board/identity.ts'
import type { Role } from '../../lib/board/roles.ts'
import type { Person } from '../../lib/interchange/api.ts'
import type { Grant, Invitation, NewInvitation, Participant, Scope, Session, Store } from '../store/store.ts'
import { type Access, accessBy } from './access.ts'
import { hashToken, newId, newToken } from './identifiers.ts'
import type { SessionCookie } from './session-cookie.ts'
import type { Signer } from './signer.ts'
import { readTicket } from './tickets.ts'

/** A session ends after this time without a request. Follow-up visits are months apart. */
const sessionIdleDays = 200
/** And in any case this long after it began: browsers keep its cookie no longer (server/people/session-cookie.ts). */
const sessionDays = 400
const dayMs = 24 * 3_600_000
/** How stale `lastSeen` may be: spares a write for each request. */
const lastSeenStepMs = 3_600_000

/** Whoever a request or a socket comes from. */
export interface Caller {
  readonly participant: Person
  readonly isOwner: boolean
  /** What the caller may reach, as it was when the request came. */
  readonly access: Access
  /** What the caller may reach by the grants that stand now. */
  accessNow(): Promise<Access>
  /** Role in a case by the grants that stand now; undefined for a case that is not there or not theirs. */
  roleIn(caseId: string): Promise<Role | undefined>
  /** Hash of the session; null for a ticket. */
  readonly session: string | null
}

/** What a link is found to be. */
export type LinkState =
  | { readonly state: 'unknown' }
  | { readonly state: 'revoked' }
  | { readonly state: 'expired'; readonly expiredAt: string }
  | { readonly state: 'open'; readonly invitation: Invitation }

export interface Joined {
  readonly state: 'joined'
  readonly participant: Person
  readonly invitation: Invitation
  /** The cookie to set; null when the caller's own session goes on. */
  readonly cookie: string | null
}

export interface People {
  /** Whose session cookie or ticket a request carries; undefined for nobody's. */
  authenticate(request: IncomingMessage): Promise<Caller | undefined>
  inspectLink(token: string): Promise<LinkState>
  join(
    token: string,
    who: Omit<Person, 'id'>,
    caller: Caller | undefined,
  ): Promise<Joined | Exclude<LinkState, { state: 'open' }>>
  /** Ends the caller's session. @returns the cookie that clears it */
  leave(caller: Caller): Promise<string>
  /** Makes an invitation. @returns it with the token, which is kept nowhere */
  invite(wanted: WantedInvitation): Promise<{ readonly invitation: Invitation; readonly token: string }>
  /** @returns false when there is no such invitation */
  revoke(invitationId: string): Promise<boolean>
  /** Calls back whenever somebody's access may have shrunk. @returns a function that ends it */
  onRevoked(listener: (participant: ParticipantId) => void): () => void
}

export interface WantedInvitation {
  readonly role: Role
  readonly scope: Scope
  readonly label: string
  readonly expiresAt: string | null
  readonly accessUntil: string | null
  /** Given for the links of the first start, which follow from the key; random otherwise. */
  readonly token?: string
}

export interface PeopleParts {
  readonly store: Store
  readonly signer: Signer
  readonly cookie: SessionCookie
  readonly now: () => Date
}

export function createPeople(parts: PeopleParts): People {
  const { store, now } = parts
  const listeners = new Set<(participant: ParticipantId) => void>()
  const tell = (participant: ParticipantId) => {
    for (const listener of listeners) listener(participant)
  }
  const end = async ({ session, participant }: Caller) => {
    if (session === null) return
    await store.endSession(session)
    tell(participant.id)
  }
  return {
    authenticate: async (request) => (await callerByTicket(parts, request)) ?? (await callerByCookie(parts, request)),
    inspectLink: async (token) => judgeLink(await store.findInvitation(hashToken(token)), now()),
    join: async (token, who, caller) => {
      const link = judgeLink(await store.findInvitation(hashToken(token)), now())
      if (link.state !== 'open') return link
      const joined = await acceptInvitation(parts, link.invitation, who, caller)
      // Another person on this computer: the browser forgets the first one's cookie, and so does the server.
      if (joined.cookie !== null && caller !== undefined) await end(caller)
      return joined
    },
    leave: async (caller) => {
      await end(caller)
      return parts.cookie.clear()
    },
    invite: (wanted) => createInvitation(store, wanted, now()),
    revoke: async (invitationId) => {
      const affected = await store.revokeInvitation(invitationId, now().toISOString())
      affected?.forEach(tell)
      return affected !== null
    },
    onRevoked: (listener) => {
      listeners.add(listener)
      return () => listeners.delete(listener)
    },
  }
}

function judgeLink(invitation: Invitation | null, now: Date): LinkState {
  if (invitation === null) return { state: 'unknown' }
  if (invitation.revokedAt !== null) return { state: 'revoked' }
  const { expiresAt } = invitation
  if (expiresAt !== null && new Date(expiresAt) <= now) return { state: 'expired', expiredAt: expiresAt }
  return { state: 'open', invitation }
}

async function callerByTicket({ store, signer, now }: PeopleParts, { url }: IncomingMessage) {
  const text = new URL(url ?? '/', 'http://localhost').searchParams.get('ticket')
  const ticket = text === null ? undefined : readTicket(signer, text, now())
  const participant = ticket === undefined ? null : await store.findParticipant(ticket.participant)
  if (ticket === undefined || participant === null) return undefined
  const grant: Grant = {
    participant: ticket.participant,
    scope: { kind: 'case', id: ticket.caseId },
    role: ticket.role,
    grantedAt: ticket.expiresAt,
    expiresAt: ticket.expiresAt,
    invitation: '',
  }
  return callerWith(store, participant, null, now, async () => [grant])
}

async function callerByCookie({ store, signer, cookie, now }: PeopleParts, { headers }: IncomingMessage) {
  const value = cookie.read(headers.cookie)
  const token = value === undefined ? undefined : signer.verify('session', value)
  const session = token === undefined ? null : await store.findSession(hashToken(token))
  if (session === null || isOver(session, now())) return undefined
  const participant = await store.findParticipant(session.participant)
  if (participant === null) return undefined
  if (now().getTime() - Date.parse(session.lastSeen) > lastSeenStepMs)
    await store.touchSession(session.hash, now().toISOString())
  return callerWith(store, participant, session.hash, now, () => store.listGrants(participant.id))
}

const isOver = ({ createdAt, lastSeen }: Session, now: Date) =>
  now.getTime() - Date.parse(lastSeen) > sessionIdleDays * dayMs ||
  now.getTime() - Date.parse(createdAt) > sessionDays * dayMs

async function callerWith(
  store: Store,
  { id, name, affiliation }: Participant,
  session: string | null,
  now: () => Date,
  grants: () => Promise<readonly Grant[]>,
): Promise<Caller> {
  const access = accessBy(await grants(), now())
  return {
    participant: { id, name, affiliation },
    isOwner: access.isOwner,
    access,
    session,
    accessNow: async () => accessBy(await grants(), now()),
    roleIn: async (caseId) => {
      const [place, standing] = await Promise.all([store.findCase(caseId), grants()])
      return place === null ? undefined : accessBy(standing, now()).roleIn(place)
    },
  }
}

async function acceptInvitation(
  { store, signer, cookie, now }: PeopleParts,
  invitation: Invitation,
  who: Omit<Person, 'id'>,
  caller: Caller | undefined,
): Promise<Joined> {
  const at = now().toISOString()
  const known = caller !== undefined && caller.session !== null && isSamePerson(caller.participant, who)
  const participant: Person = known ? caller.participant : { id: newId(), ...who }
  const token = newToken()
  await store.join({
    grant: {
      participant: participant.id,
      scope: invitation.scope,
      role: invitation.role,
      grantedAt: at,
      expiresAt: invitation.accessUntil,
      invitation: invitation.id,
    },
    newParticipant: known ? null : { ...participant, createdAt: at },
    newSession: known ? null : { hash: hashToken(token), participant: participant.id, createdAt: at, lastSeen: at },
  })
  return { state: 'joined', participant, invitation, cookie: known ? null : cookie.set(signer.sign('session', token)) }
}

/** Another name on the same computer is another person, who must not write under the first one's name. */
const isSamePerson = (known: Person, who: Omit<Person, 'id'>) =>
  known.name === who.name && known.affiliation === who.affiliation

async function createInvitation(store: Store, { token = newToken(), ...wanted }: WantedInvitation, now: Date) {
  const created: NewInvitation = { ...wanted, id: newId(), tokenHash: hashToken(token), createdAt: now.toISOString() }
  await store.createInvitation(created)
  return { invitation: { ...created, revokedAt: null, uses: 0 }, token }
}
