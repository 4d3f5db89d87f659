import { z } from 'zod'

export const Role = z.enum(['moderator', 'team', 'panel', 'observer'])
export type Role = z.infer<typeof Role>

/** Whose hand: a role, or whoever wrote the record (whatever their role is now, if it may still write the document). */
export type Hand = Role | 'author'

/** Roles that may send edits to a document at all. */
export const writersOfDocument = {
  record: ['moderator', 'team'],
  floor: ['moderator', 'team', 'panel'],
} as const satisfies Record<string, readonly Role[]>

/** Roles whose presence (name, pointer, typing) is published. Observers are counted, never listed. */
export const rolesWithPresence: readonly Role[] = ['moderator', 'team', 'panel']
