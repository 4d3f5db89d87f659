import type { ParticipantId } from '../../lib/board/identity.ts'
import type { Role } from '../../lib/board/roles.ts'
import type { Grant, Participant } from '../store/store.ts'

/** Where a case stands, as far as rights go. */
export interface CasePlace {
  readonly id: string
  readonly programme: string
}

/** What one person may reach at one moment, judged from their grants. */
export interface Access {
  readonly isOwner: boolean
  roleIn(place: CasePlace): Role | undefined
  /** Role in a programme as a whole; undefined for somebody who was invited to single cases, or not at all. */
  roleInProgramme(id: string): Role | undefined
}

export const noAccess: Access = { isOwner: false, roleIn: () => undefined, roleInProgramme: () => undefined }

/**
 * The owner is moderator everywhere; for everybody else the newest grant that covers the case and has not expired
 * decides, so that a second link can raise or lower a role.
 * @param grants newest first, without those of revoked invitations
 */
export function accessBy(grants: readonly Grant[], now: Date): Access {
  const current = grants.filter(({ expiresAt }) => expiresAt === null || new Date(expiresAt) > now)
  const isOwner = current.some(({ scope }) => scope.kind === 'installation')
  return {
    isOwner,
    roleIn: (place) => (isOwner ? 'moderator' : current.find((grant) => covers(grant, place))?.role),
    roleInProgramme: (id) =>
      isOwner ? 'moderator' : current.find(({ scope }) => scope.kind === 'programme' && scope.id === id)?.role,
  }
}

function covers({ scope }: Grant, { id, programme }: CasePlace): boolean {
  switch (scope.kind) {
    case 'installation':
      return true
    case 'programme':
      return scope.id === programme
    case 'case':
      return scope.id === id
  }
}

/** The grants of each person, in the order given. */
export function grantsByParticipant(
  granted: readonly { readonly grant: Grant; readonly participant: Participant }[],
): ReadonlyMap<ParticipantId, readonly Grant[]> {
  const byParticipant = new Map<ParticipantId, Grant[]>()
  for (const { grant, participant } of granted) {
    const grants = byParticipant.get(participant.id)
    if (grants === undefined) byParticipant.set(participant.id, [grant])
    else grants.push(grant)
  }
  return byParticipant
}
