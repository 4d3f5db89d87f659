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
 * start can print it although the store keeps its hash alone. A revoked one is followed by the next, so that an
 * installation never stays without an owner.
 */
export async function ownerLinks(parts: Parts): Promise<readonly FirstLink[]> {
  if ((await parts.store.countOwners()) > 0) return []
  for (let issue = 1; ; issue++) {
    const wanted = { name: `owner ${issue}`, who: 'owner', role: 'moderator', scope: { kind: 'installation' } } as const
    const link = await standingLink(parts, wanted)
    if (link !== undefined) return [link]
  }
}

/** One link a role for everything in a programme, but for those that were revoked. */
export async function programmeLinks(parts: Parts, programme: string): Promise<readonly FirstLink[]> {
  const links = RoleSchema.options.map((role) =>
    standingLink(parts, { name: `${programme} ${role}`, who: role, role, scope: { kind: 'programme', id: programme } }),
  )
  return (await Promise.all(links)).filter((link) => link !== undefined)
}

interface WantedLink {
  /** What the token is derived from. */
  readonly name: string
  readonly who: string
  readonly role: Role
  readonly scope: Scope
}

/** @returns the link, made if it was not; undefined when it was revoked */
async function standingLink(
  { store, people, signer }: Parts,
  { name, who, role, scope }: WantedLink,
): Promise<FirstLink | undefined> {
  const token = signer.derive('first-link', name)
  const known = await store.findInvitation(hashToken(token))
  if (known === null)
    await people.invite({ role, scope, label: `first start: ${who}`, expiresAt: null, accessUntil: null, token })
  return (known?.revokedAt ?? null) === null ? { who, path: `/join/${token}` } : undefined
}
