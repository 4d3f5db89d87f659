import type { EarCourse } from '../outcomes/ear-course.ts'
import type { Judged, VisitVerdict } from '../outcomes/verdict.ts'
import type { Contingency, Trigger } from './records/contingency.ts'

/** A trigger that the measurements of a visit decide. */
export type MeasuredTrigger = Exclude<Trigger, { kind: 'found' }>

/** What computes: the case document describes numbers and gives none itself, so page and server hand this in. */
export type Watcher = (trigger: MeasuredTrigger, course: EarCourse) => readonly VisitVerdict[]

/** A contingency whose trigger the measurements of a visit say is met, while no person has moved it. */
export interface MetByMeasurement {
  readonly contingency: Contingency
  readonly visit: string
  readonly judged: Judged
}

/**
 * Watched contingencies whose trigger is met at the latest visit that says anything. One that somebody put back to watching
 * after that visit and its last test were written down is theirs: they have seen it.
 */
export function metByMeasurement(
  contingencies: Iterable<Contingency>,
  course: EarCourse,
  watch: Watcher,
): readonly MetByMeasurement[] {
  const writtenAt = new Map(course.visits.map((at) => [at.visit, Date.parse(at.writtenAt)]))
  return [...contingencies].flatMap((contingency) => {
    const { trigger, state, moved } = contingency
    if (state !== 'watching' || trigger.kind === 'found') return []
    const latest = watch(trigger, course).findLast(({ watched }) => watched.kind === 'judged')
    if (latest?.watched.kind !== 'judged' || latest.watched.verdict !== 'met') return []
    if (moved !== undefined && Date.parse(moved.at) >= (writtenAt.get(latest.visit) ?? 0)) return []
    return [{ contingency, visit: latest.visit, judged: latest.watched }]
  })
}
