import type { Role } from '../../lib/board/roles.ts'
import type { Grant } from '../store/store.ts'

/** Where a case stands, as far as rights go. */
export interface CasePlace {
  readonly id: string
  readonly programme: string
}

/** What one person may reach at one moment, judged from their grants. */
export interface Access {
  readonly isOwner: boolean
  roleIn(place: CasePlace): Role | undefined
  /** Whether the person was invited to the whole programme. */
  coversProgramme(id: string): boolean
}

export const noAccess: Access = { isOwner: false, roleIn: () => undefined, coversProgramme: () => false }

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
    coversProgramme: (id) => isOwner || current.some(({ scope }) => scope.kind === 'programme' && scope.id === id),
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
