import { operationDay } from '../../lib/board/day-of-operation.ts'
import { earCourseOf } from '../../lib/board/ear-course.ts'
import { onlyId } from '../../lib/board/identity.ts'
import { isHeld } from '../../lib/board/records/visit.ts'
import type { TableView } from '../../lib/board/rules.ts'
import { nextVisitDue } from '../../lib/board/visit-plan.ts'
import { metByMeasurement } from '../../lib/board/watched-contingencies.ts'
import type { CaseProjection } from '../../lib/interchange/api.ts'
import { watchedOver } from '../../lib/outcomes/watched-over.ts'

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
    contingenciesMet: contingenciesMet(tables),
    nextVisitDue: nextVisitDue(tables.values('visits')) ?? null,
  }
}

/** Those that somebody called met, and watched ones that the latest visit meets. */
function contingenciesMet(tables: TableView): number {
  const called = count(tables.values('contingencies'), ({ state }) => state === 'met')
  const ear = tables.get('plan', onlyId)?.ear ?? tables.get('header', onlyId)?.ear
  const visits = [...tables.values('visits')]
  if (ear === undefined || !visits.some(isHeld)) return called
  const course = earCourseOf({
    ear,
    visits,
    tests: [...tables.values('tests')],
    speechTests: [...tables.values('speechTests')],
    forecasts: [...tables.values('forecasts')],
    operatedOn: operationDay(tables),
  })
  return called + metByMeasurement(tables.values('contingencies'), course, watchedOver).length
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
