import { type Role, Role as RoleSchema } from '../lib/board/roles.ts'
import { hashToken } from './people/identifiers.ts'
import type { People } from './people/people.ts'
import type { Signer } from './people/signer.ts'
import type { Scope, Store } from './store/store.ts'

/** A link to print at the start. */
export interface FirstLink {
  readonly who: string
  readonly path: string
}

interface Parts {
  readonly store: Store
  readonly people: People
  readonly signer: Signer
}

/**
 * The owner's link, until somebody has used it. Its token follows from the key in the data folder, so that every
 * start can print it although the store keeps its hash alone.
 */
export async function ownerLinks(parts: Parts): Promise<readonly FirstLink[]> {
  if ((await parts.store.countOwners()) > 0) return []
  return [await standingLink(parts, 'owner', 'owner', 'moderator', { kind: 'installation' })]
}

/** One link a role for everything in a programme. */
export function programmeLinks(parts: Parts, programme: string): Promise<readonly FirstLink[]> {
  const linkFor = (role: Role) =>
    standingLink(parts, `${programme} ${role}`, role, role, { kind: 'programme', id: programme })
  return Promise.all(RoleSchema.options.map(linkFor))
}

async function standingLink(
  { store, people, signer }: Parts,
  name: string,
  who: string,
  role: Role,
  scope: Scope,
): Promise<FirstLink> {
  const token = signer.derive('first-link', name)
  const known = await store.findInvitation(hashToken(token))
  if (known === null) {
    await people.invite({ role, scope, label: `first start: ${who}`, expiresAt: null, accessUntil: null, token })
  }
  return { who, path: `/join/${token}` }
}
