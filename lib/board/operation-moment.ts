import { byRank } from './reading.ts'
import type { OperativeStep } from './records/operative-step.ts'

/** Where the operation stood at a moment: in a step, after one that had ended with none under way, or before the first. */
export type OperationMoment =
  | { readonly kind: 'in-step' | 'after-step'; readonly number: number; readonly title: string }
  | { readonly kind: 'before-first' }

/**
 * What was going on at a moment, from when the steps began and ended. Of steps under way together the one that began
 * last counts; its number is its place in the order of the list.
 * @param moment ISO 8601 instant
 * @returns undefined when no step has begun at all: then there is nothing to place it by
 */
export function operationMoment(steps: readonly OperativeStep[], moment: string): OperationMoment | undefined {
  const atMs = Date.parse(moment)
  const began = [...steps]
    .sort(byRank)
    .map(({ title, startedAt, endedAt }, index) => ({ title, number: index + 1, from: ms(startedAt), to: ms(endedAt) }))
    .filter((step) => step.from !== undefined)
  if (began.length === 0) return undefined
  const under = latest(
    began.filter(({ from = 0, to }) => from <= atMs && (to === undefined || to > atMs)),
    ({ from }) => from,
  )
  if (under !== undefined) return { kind: 'in-step', number: under.number, title: under.title }
  const ended = latest(
    began.filter(({ to }) => to !== undefined && to <= atMs),
    ({ to }) => to,
  )
  return ended === undefined
    ? { kind: 'before-first' }
    : { kind: 'after-step', number: ended.number, title: ended.title }
}

const ms = (moment: string | undefined): number | undefined => (moment === undefined ? undefined : Date.parse(moment))

function latest<T>(items: readonly T[], timeOf: (item: T) => number | undefined): T | undefined {
  return items.reduce<T | undefined>(
    (best, item) => (best === undefined || (timeOf(item) ?? 0) > (timeOf(best) ?? 0) ? item : best),
    undefined,
  )
}
