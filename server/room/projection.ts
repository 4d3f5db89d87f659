import { onlyId } from '../../lib/board/identity.ts'
import type { TableView } from '../../lib/board/rules.ts'
import type { CaseProjection } from '../../lib/interchange/api.ts'

/** The columns that a case's record document decides. */
export function projectRecord(tables: TableView): Partial<CaseProjection> {
  const header = tables.get('header', onlyId)
  const plan = tables.get('plan', onlyId)
  return {
    ...(header === undefined ? {} : { label: header.pseudonym }),
    phase: header?.phase ?? null,
    ear: plan?.ear ?? header?.ear ?? null,
    deviceClass: plan?.deviceClass ?? null,
    couplingSite: plan?.couplingSite ?? null,
    contingenciesMet: count(tables.values('contingencies'), ({ state }) => state === 'met'),
  }
}

/** The columns that a case's floor document decides: questions that somebody still has to deal with. */
export function projectFloor(tables: TableView): Partial<CaseProjection> {
  const open = count(
    tables.values('questions'),
    ({ state, foldedInto }) => foldedInto === undefined && (state === 'raised' || state === 'called'),
  )
  return { openQuestions: open }
}

function count<T>(values: Iterable<T>, fits: (value: T) => boolean): number {
  let n = 0
  for (const value of values) if (fits(value)) n++
  return n
}
