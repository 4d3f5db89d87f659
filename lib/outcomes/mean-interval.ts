import tCdf from '@stdlib/stats-base-dists-t-cdf'
import tQuantile from '@stdlib/stats-base-dists-t-quantile'
import { outsideDomain } from '../audiometry/domain.ts'
import { requireFinite, requireOpenUnit } from '../speech/counts.ts'
import type { Estimate, SeriesMethod } from './series-method.ts'

const studentT: SeriesMethod = {
  id: 'student-t-interval',
  source: 'Student, Biometrika 6:1-25, 1908: mean ± t(n - 1) SD / sqrt(n)',
  status: 'confirmed',
}

export const welchMethod: SeriesMethod = {
  id: 'welch',
  source:
    'Welch, Biometrika 34:28-35, 1947, with the degrees of freedom of Satterthwaite, Biometrics Bull 2:110-114, 1946',
  status: 'confirmed',
}

export interface MeanSummary extends Estimate {
  /** Independent observations: patients, not ears. Two ears of one patient are not independent. */
  readonly n: number
  /** Standard deviation with divisor n - 1. */
  readonly sd: number
  readonly min: number
  readonly max: number
}

export interface TestedDifference extends Estimate {
  readonly t: number
  readonly degreesOfFreedom: number
  /** Two-sided probability of a difference at least this large when there is none. */
  readonly pValue: number
}

export interface PairedDifference extends TestedDifference {
  readonly n: number
  /** Standard deviation of the differences, divisor n - 1: what study size needs. */
  readonly sd: number
}

/**
 * Mean, standard deviation and t interval of a series.
 * @param values at least two finite numbers, in any unit
 * @param confidence between 0 and 1 exclusive
 * @throws RangeError naming the argument, its value and its domain
 * Source: Student 1908. Accuracy: 1e-10 relative. Checked by: tests/published/r-4-2-series.test.ts
 */
export function meanSummary(values: readonly number[], confidence = 0.95): MeanSummary {
  const sample = requireSample('values', values)
  const { n, mean, sd } = momentsOf(sample)
  const half = tQuantile((1 + requireOpenUnit('confidence', confidence)) / 2, n - 1) * (sd / Math.sqrt(n))
  const limits = { value: mean, low: mean - half, high: mean + half, confidence, method: studentT }
  return { n, sd, min: Math.min(...sample), max: Math.max(...sample), ...limits }
}

/**
 * Paired difference `first - second` with its t interval; for thresholds before and after, positive is better.
 * @param first one value a patient; @param second the same patients in the same order
 * @param confidence between 0 and 1 exclusive
 * @throws RangeError when the lists differ in length, hold fewer than two values, or a value is not finite
 * Source: Student 1908. Accuracy: 1e-10 relative. Checked by: tests/published/r-4-2-series.test.ts
 */
export function pairedDifference(
  first: readonly number[],
  second: readonly number[],
  confidence = 0.95,
): PairedDifference {
  const differences = pairedValues(first, second)
  const { n, sd, ...estimate } = meanSummary(differences, confidence)
  const { value, low, high, method } = estimate
  const test = tTest(value, sd / Math.sqrt(n), n - 1)
  return { n, sd, value, low, high, confidence, method, degreesOfFreedom: n - 1, ...test }
}

/**
 * Difference of two independent means, `mean(first) - mean(second)`, without assuming equal variances.
 * @param first at least two finite numbers; @param second the same, of other patients
 * @param confidence between 0 and 1 exclusive
 * @throws RangeError naming the argument, its value and its domain
 * Source: Welch 1947, Satterthwaite 1946. Accuracy: 1e-10 relative. Checked by: tests/published/r-4-2-series.test.ts
 */
export function welchDifference(
  first: readonly number[],
  second: readonly number[],
  confidence = 0.95,
): TestedDifference {
  const a = momentsOf(requireSample('first', first))
  const b = momentsOf(requireSample('second', second))
  const varianceA = a.sd ** 2 / a.n
  const varianceB = b.sd ** 2 / b.n
  const error = Math.sqrt(varianceA + varianceB)
  const degreesOfFreedom =
    error === 0
      ? a.n + b.n - 2
      : (varianceA + varianceB) ** 2 / (varianceA ** 2 / (a.n - 1) + varianceB ** 2 / (b.n - 1))
  const value = a.mean - b.mean
  const half = tQuantile((1 + requireOpenUnit('confidence', confidence)) / 2, degreesOfFreedom) * error
  const limits = { value, low: value - half, high: value + half, confidence, method: welchMethod }
  return { ...limits, degreesOfFreedom, ...tTest(value, error, degreesOfFreedom) }
}

/**
 * Differences `first - second` of paired values.
 * @throws RangeError when the lists differ in length or a value is not finite
 */
export function pairedValues(first: readonly number[], second: readonly number[]): readonly number[] {
  if (first.length !== second.length) {
    throw outsideDomain('the length of second', second.length, `that of first, ${first.length}`)
  }
  return first.map((value, index) => {
    const other = second[index] ?? Number.NaN
    return requireFinite(`first[${index}]`, value) - requireFinite(`second[${index}]`, other)
  })
}

/** @throws RangeError unless there are at least `least` values and each is finite */
export function requireSample(argument: string, values: readonly number[], least = 2): readonly number[] {
  if (values.length < least) throw outsideDomain(`the length of ${argument}`, values.length, `at least ${least}`)
  for (const [index, value] of values.entries()) requireFinite(`${argument}[${index}]`, value)
  return values
}

function momentsOf(values: readonly number[]): { readonly n: number; readonly mean: number; readonly sd: number } {
  const n = values.length
  const mean = values.reduce((sum, value) => sum + value, 0) / n
  const squares = values.reduce((sum, value) => sum + (value - mean) ** 2, 0)
  return { n, mean, sd: Math.sqrt(squares / (n - 1)) }
}

function tTest(
  value: number,
  error: number,
  degreesOfFreedom: number,
): { readonly t: number; readonly pValue: number } {
  if (value === 0) return { t: 0, pValue: 1 }
  if (error === 0) return { t: Math.sign(value) * Number.POSITIVE_INFINITY, pValue: 0 }
  const t = value / error
  return { t, pValue: 2 * tCdf(-Math.abs(t), degreesOfFreedom) }
}
