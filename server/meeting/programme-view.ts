import type { CaseSummary, OnNow, ProgrammeDetail } from '../../lib/interchange/api.ts'
import type { Access } from '../people/access.ts'
import type { Programme, Store, StoredCase, StoredProgramme } from '../store/store.ts'

/** A programme as it is stored, with all of its cases in order. */
export interface WholeProgramme {
  readonly programme: StoredProgramme
  readonly cases: readonly StoredCase[]
}

export async function readProgramme(store: Store, id: string): Promise<WholeProgramme | undefined> {
  const [programmes, cases] = await Promise.all([store.listProgrammes(), store.listCases()])
  const programme = programmes.find((each) => each.id === id)
  return programme && { programme, cases: cases.filter((each) => each.programme === id) }
}

/** The caller's cases, each with the caller's role in it. */
export function visibleCases(cases: readonly StoredCase[], access: Access): CaseSummary[] {
  return cases.flatMap((found) => {
    const role = access.roleIn(found)
    return role === undefined ? [] : [{ ...found, role }]
  })
}

/** @returns what of a programme somebody may see; undefined for somebody who was invited to no part of it */
export function programmeView({ programme, cases }: WholeProgramme, access: Access): ProgrammeDetail | undefined {
  const role = access.roleInProgramme(programme.id) ?? null
  const visible = visibleCases(cases, access)
  if (role === null && visible.length === 0) return undefined
  const place = cases.findIndex(({ id }) => id === programme.onNow.lastOn)
  const ahead = new Set(cases.slice(place + 1).map(({ id }) => id))
  return {
    programme: withoutOnNow(programme),
    cases: visible,
    onNow: onNowFor(programme, cases, access),
    next: visible.find(({ id }) => ahead.has(id))?.id ?? null,
    role,
  }
}

/** Which case is on, for somebody who may not be invited to it. */
export function onNowFor(
  { onNow: { isOn, lastOn, since } }: StoredProgramme,
  cases: readonly StoredCase[],
  access: Access,
): OnNow {
  const found = isOn ? cases.find(({ id }) => id === lastOn) : undefined
  if (found === undefined || since === null) return { kind: 'between', since }
  return access.roleIn(found) === undefined ? { kind: 'elsewhere', since } : { kind: 'case', id: found.id, since }
}

export const withoutOnNow = ({ onNow: _, ...programme }: StoredProgramme): Programme => programme
