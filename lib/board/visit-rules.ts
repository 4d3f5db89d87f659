import { earliestOperationDay } from './day-of-operation.ts'
import { onlyId } from './identity.ts'
import type { Contingency } from './records/contingency.ts'
import type { Visit } from './records/visit.ts'
import { type Refusal, refusal } from './refusals.ts'
import type { Change, TableView } from './rules.ts'

/** Rules of visits and of what belongs to them. */

/** The easternmost clock is 14 hours ahead of UTC, so a day may have begun there that long before it does in UTC. */
const aheadOfUtcMs = 14 * 3_600_000

/** The last calendar day that has begun anywhere at this moment. */
export const latestDayAt = (moment: string): string =>
  new Date(Date.parse(moment) + aheadOfUtcMs).toISOString().slice(0, 10)

/** A visit lies after the operation; one that was held is over, so its day has begun where it is written down. */
export function visitIsPossible({ id, before, after }: Change<'visits'>, tables: TableView): Refusal | undefined {
  if (after === undefined) return undefined
  const path = `visits/${id}`
  const { held, plannedOn } = after
  if (held !== undefined && held.on > latestDayAt(held.at)) return refusal('visit-in-future', path, { day: held.on })
  const operated = earliestOperationDay(tables)
  if (held !== undefined && before?.held?.on !== held.on) {
    if (operated === undefined) return refusal('visit-without-operation', path, {})
    if (held.on < operated) return refusal('before-operation', path, { day: held.on, operated })
  }
  if (plannedOn !== undefined && before?.plannedOn !== plannedOn && operated !== undefined && plannedOn < operated)
    return refusal('before-operation', path, { day: plannedOn, operated })
  return undefined
}

/** The operation is over when its day is named, and lies before every visit that was held. */
export function operationIsPossible({ before, after }: Change<'header'>, tables: TableView): Refusal | undefined {
  const day = after?.operatedOn
  if (after === undefined || day === undefined || day === before?.operatedOn) return undefined
  if (day > latestDayAt(after.at)) return refusal('operation-in-future', 'header/only', { day })
  const first = [...tables.values('visits')].flatMap(({ held }) => held?.on ?? []).toSorted()[0]
  if (first === undefined || day <= first) return undefined
  return refusal('operation-after-visit', 'header/only', { day, visit: first })
}

/** Two people who plan at once plan each visit once. */
export function visitIsPlannedOnce({ id, after }: Change<'visits'>, tables: TableView): Refusal | undefined {
  if (after === undefined || !isOneOfItsKind(after)) return undefined
  for (const other of tables.values('visits'))
    if (other.id !== id && isOneOfItsKind(other) && other.occasion === after.occasion && other.year === after.year)
      return refusal('second-visit', `visits/${id}`, { occasion: after.occasion })
  return undefined
}

const isOneOfItsKind = ({ occasion, state }: Visit): boolean => occasion !== 'unscheduled' && state !== 'called-off'

/** A test of a visit names one of this case and was made after the operation. */
export function testFitsVisit<K extends 'tests' | 'speechTests'>(kind: K) {
  return ({ id, before, after }: Change<K>, tables: TableView): Refusal | undefined => {
    if (after?.visit === undefined) return undefined
    const path = `${kind}/${id}`
    if (tables.get('visits', after.visit) === undefined)
      return refusal('missing-reference', path, { field: 'visit', id: after.visit })
    if (before?.visit === after.visit && before.performedOn === after.performedOn) return undefined
    const operated = earliestOperationDay(tables)
    if (operated === undefined || after.performedOn >= operated) return undefined
    return refusal('before-operation', path, { day: after.performedOn, operated })
  }
}

export function itemOfVisit({ id, after }: Change<'visitItems'>, tables: TableView): Refusal | undefined {
  if (after === undefined || tables.get('visits', after.visit) !== undefined) return undefined
  return refusal('missing-reference', `visitItems/${id}`, { field: 'visit', id: after.visit })
}

/** What a contingency was seen at, and what acting on it led to, are on the board. */
export function contingencyLinksExist({ id, after }: Change<'contingencies'>, tables: TableView): Refusal | undefined {
  const path = `contingencies/${id}`
  const visit = after?.moved?.visit
  if (visit !== undefined && tables.get('visits', visit) === undefined)
    return refusal('missing-reference', path, { field: 'moved.visit', id: visit })
  const next = after?.acted?.next
  if (next === undefined || leadsOn(next, id, tables)) return undefined
  return refusal('missing-reference', path, { field: 'acted.next', id: next.id })
}

function leadsOn(next: NonNullable<NonNullable<Contingency['acted']>['next']>, from: string, tables: TableView) {
  if (next.kind === 'contingencies' && next.id === from) return false
  return next.kind === 'plan' ? next.id === onlyId : tables.get(next.kind, next.id) !== undefined
}
