import { byRank } from '@/lib/board/reading.ts'
import type { OperativeStep, StepState } from '@/lib/board/records/operative-step.ts'
import { openNeeds, stepFinder } from '@/lib/board/step-needs.ts'

export interface NumberedStep {
  readonly step: OperativeStep
  /** place in the list, from 1 */
  readonly number: number
  /** its prerequisites that are neither done nor left out */
  readonly open: readonly OpenNeed[]
}

export interface OpenNeed {
  readonly number: number
  readonly title: string
  readonly state: StepState
}

/** Where the operation stands in its list of steps. */
export interface CourseOfSteps {
  readonly where: 'no-steps' | 'not-begun' | 'in-step' | 'between' | 'finished'
  readonly total: number
  readonly previous?: NumberedStep
  readonly current?: NumberedStep
  readonly next?: NumberedStep
}

/**
 * The step under way with the ones around it. Of several under way the one that began last counts; with none under way
 * the operation stands before the first step that is still ahead and after the last one done.
 */
export function courseOfSteps(steps: readonly OperativeStep[]): CourseOfSteps {
  const inOrder = steps.toSorted(byRank)
  const stepOf = stepFinder(steps)
  const openOf = (step: OperativeStep) =>
    openNeeds(step, stepOf).map((need) => ({
      number: inOrder.indexOf(need) + 1,
      title: need.title,
      state: need.state,
    }))
  const ordered = inOrder.map((step, index): NumberedStep => ({ step, number: index + 1, open: openOf(step) }))
  const current = ordered
    .filter(({ step }) => step.state === 'under-way')
    .toSorted((a, b) => (a.step.startedAt ?? '').localeCompare(b.step.startedAt ?? ''))
    .at(-1)
  const done = ordered.filter(({ step }) => step.state === 'done')
  const ahead = ordered.filter(({ step }) => step.state === 'ahead')
  const previous = current === undefined ? done.at(-1) : done.findLast(({ number }) => number < current.number)
  const after = current ?? previous
  const next = ahead.find(({ number }) => after === undefined || number > after.number) ?? ahead[0]
  return {
    where: whereOf({ total: ordered.length, current, previous, next }),
    total: ordered.length,
    ...(previous && { previous }),
    ...(current && { current }),
    ...(next && { next }),
  }
}

function whereOf({
  total,
  current,
  previous,
  next,
}: {
  readonly total: number
  readonly current: NumberedStep | undefined
  readonly previous: NumberedStep | undefined
  readonly next: NumberedStep | undefined
}): CourseOfSteps['where'] {
  if (total === 0) return 'no-steps'
  if (current !== undefined) return 'in-step'
  if (next === undefined) return 'finished'
  return previous === undefined ? 'not-begun' : 'between'
}
