import { onlyId } from './identity.ts'
import type { CaseHeader } from './records/case-header.ts'
import type { OperativeStep } from './records/operative-step.ts'
import type { TableView } from './rules.ts'

/** As much of the record as the day of the operation follows from. */
export type OperationView = Pick<TableView, 'get' | 'values'>

/**
 * The day of the operation: the one that the header names, or else that on which the first step began.
 * @returns undefined where neither is known, whether or not the ear was operated on
 */
export const operationDayOf = (
  header: Pick<CaseHeader, 'operatedOn'> | undefined,
  steps: Iterable<Pick<OperativeStep, 'startedAt'>>,
): string | undefined => header?.operatedOn ?? firstStepDay(steps)

export const operationDay = (tables: OperationView): string | undefined =>
  operationDayOf(tables.get('header', onlyId), tables.values('steps'))

/**
 * The earliest day on which the ear may have been operated on, for rules that have to be safe: of the named day and that
 * of the first step the earlier one, so that naming a later day hides no result. A case beyond theatre without either has
 * been operated on some day: the empty string lies before every day.
 * @returns undefined while it is not operated on yet
 */
export function earliestOperationDay(tables: OperationView): string | undefined {
  const header = tables.get('header', onlyId)
  const days = [header?.operatedOn, firstStepDay(tables.values('steps'))].filter((day) => day !== undefined)
  if (days.length > 0) return days.toSorted()[0]
  return header?.phase === 'follow-up' || header?.phase === 'closed' ? '' : undefined
}

function firstStepDay(steps: Iterable<Pick<OperativeStep, 'startedAt'>>): string | undefined {
  const begun = [...steps].flatMap(({ startedAt }) => startedAt ?? [])
  return begun.toSorted()[0]?.slice(0, 10)
}
