import { binomialAtMost } from '../speech/binomial.ts'
import { wilsonInterval } from '../speech/binomial-interval.ts'
import { requireCount } from '../speech/counts.ts'
import { exactInterval } from '../speech/exact-interval.ts'
import type { Estimate, SeriesMethod } from './series-method.ts'

/** Patients (or ears, if each patient gives one) with an outcome, of all that were followed. */
export interface Count {
  /** Integer, 0 to `total`. */
  readonly events: number
  /** Integer, at least 1. */
  readonly total: number
}

export interface ProportionSummary extends Count {
  readonly proportion: number
  readonly exact: Estimate
  readonly wilson: Estimate
}

export const newcombeMethod: SeriesMethod = {
  id: 'newcombe-10',
  source: 'Newcombe, Stat Med 17:873-890, 1998, method 10: Wilson limits of both proportions combined',
  status: 'confirmed',
}

export const mcNemarMethod: SeriesMethod = {
  id: 'mcnemar-exact',
  source: 'McNemar, Psychometrika 12:153-157, 1947, with the exact binomial distribution of the discordant pairs',
  status: 'confirmed',
}

/**
 * Proportion of a reporting bin with its exact and its Wilson limits.
 * @throws RangeError naming the argument, its value and its domain
 * Source: Clopper and Pearson 1934; Wilson 1927. Checked by: tests/published/r-4-2-proportions.test.ts
 */
export function proportionSummary(count: Count, confidence = 0.95): ProportionSummary {
  const score = scoreOf('count', count)
  const exact = exactInterval(score, confidence)
  const wilson = wilsonInterval(score, confidence)
  const value = exact.proportion
  return { ...count, proportion: value, exact: { ...exact, value }, wilson: { ...wilson, value } }
}

/**
 * Difference of two independent proportions, `first - second`, with Newcombe's limits.
 * @param confidence between 0 and 1 exclusive
 * @returns proportions, -1 to 1
 * @throws RangeError naming the argument, its value and its domain
 * Source: `newcombeMethod`. Checked by: tests/published/newcombe-1998.test.ts
 */
export function proportionDifference(first: Count, second: Count, confidence = 0.95): Estimate {
  const a = wilsonInterval(scoreOf('first', first), confidence)
  const b = wilsonInterval(scoreOf('second', second), confidence)
  const value = a.proportion - b.proportion
  return {
    value,
    low: value - Math.hypot(a.proportion - a.low, b.high - b.proportion),
    high: value + Math.hypot(a.high - a.proportion, b.proportion - b.low),
    confidence,
    method: newcombeMethod,
  }
}

export interface McNemar {
  /** Two-sided exact probability of a split at least this uneven when neither direction is favoured. */
  readonly pValue: number
  readonly method: SeriesMethod
}

/**
 * Exact McNemar test of a yes/no outcome in the same patients under two conditions (before and after, two devices).
 * @param onlyFirst pairs with the outcome only under the first condition, integer, at least 0
 * @param onlySecond pairs with it only under the second, integer, at least 0
 * @throws RangeError naming the argument, its value and its domain
 * Source: `mcNemarMethod`. Checked by: tests/published/r-4-2-proportions.test.ts
 */
export function exactMcNemar(onlyFirst: number, onlySecond: number): McNemar {
  requireCount('onlyFirst', onlyFirst, 0, 1_000_000)
  requireCount('onlySecond', onlySecond, 0, 1_000_000)
  const discordant = onlyFirst + onlySecond
  if (discordant === 0) return { pValue: 1, method: mcNemarMethod }
  const oneSide = binomialAtMost(Math.min(onlyFirst, onlySecond), discordant, 0.5)
  return { pValue: Math.min(1, 2 * oneSide), method: mcNemarMethod }
}

function scoreOf(argument: string, { events, total }: Count): { readonly correct: number; readonly presented: number } {
  requireCount(`${argument}.total`, total, 1, 1_000_000)
  requireCount(`${argument}.events`, events, 0, total)
  return { correct: events, presented: total }
}
