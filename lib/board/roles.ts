import * as z from 'zod/mini'

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

/**
 * Roles that may see a case as it was at an earlier moment. That brings back what was removed since, a slip among it, so it
 * is for those who answer for the case or discuss it, and not for an audience of hundreds.
 */
export const rolesWithRewind: readonly Role[] = ['moderator', 'team', 'panel']

/** Roles that take a case or its tests out of the board: who works on it. */
export const rolesThatExchange: readonly Role[] = ['moderator', 'team']

/** Roles that take something back from everybody: who answers for what the room has seen. */
export const rolesThatWithdraw: readonly Role[] = ['moderator']

/** Roles that add cases up: those who treat, not those who were invited to watch. */
export const rolesWithSeries: readonly Role[] = ['moderator', 'team']
