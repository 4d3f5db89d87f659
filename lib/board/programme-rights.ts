import type { Role } from './roles.ts'

/** What may be done with a programme as a whole, and by whom: by their role in the programme, not in one of its cases. */
export const programmeRights = {
  /** order, planned times and breaks */
  arrange: ['moderator'],
  /** which case is on */
  lead: ['moderator'],
  /** a case that another installation wrote */
  takeIn: ['moderator', 'team'],
} as const satisfies Record<string, readonly Role[]>

export type ProgrammeAct = keyof typeof programmeRights

/** @param role in the programme; null or undefined for somebody without one */
export function mayInProgramme(act: ProgrammeAct, role: Role | null | undefined): boolean {
  const allowed: readonly Role[] = programmeRights[act]
  return role !== null && role !== undefined && allowed.includes(role)
}
