import tQuantile from '@stdlib/stats-base-dists-t-quantile'
import { twoSidedZ } from '../speech/binomial-interval.ts'
import { requireOpenUnit } from '../speech/counts.ts'
import { meanSummary, pairedValues } from './mean-interval.ts'
import type { Estimate, SeriesMethod } from './series-method.ts'

const method: SeriesMethod = {
  id: 'bland-altman',
  source:
    'Bland and Altman, Lancet 327:307-310, 1986; error of a limit: Bland and Altman, Stat Methods Med Res 8:135-160, 1999',
  status: 'confirmed',
}

export interface LimitsOfAgreement {
  readonly n: number
  /** Mean difference with its t interval. */
  readonly bias: Estimate
  readonly sd: number
  /** Bias minus and plus z SD; 1.96 SD at the usual coverage of 95 %. */
  readonly lower: Estimate
  readonly upper: Estimate
  /** Proportion of differences that the limits are to hold, between 0 and 1. */
  readonly coverage: number
}

/**
 * Limits of agreement of two measurements of the same patients, `first - second`, each with its interval.
 *
 * Standard error of a limit: SD sqrt(1 / n + z² / (2 (n - 1))), with the t quantile of n - 1 degrees of freedom.
 * @param first at least two finite numbers; @param second the same patients in the same order
 * @param confidence of the intervals, between 0 and 1 exclusive
 * @param coverage of the limits, between 0 and 1 exclusive
 * @throws RangeError naming the argument, its value and its domain
 * Checked by: tests/published/bland-altman-1986.test.ts, r-4-2-series.test.ts
 */
export function limitsOfAgreement(
  first: readonly number[],
  second: readonly number[],
  { confidence = 0.95, coverage = 0.95 }: { readonly confidence?: number; readonly coverage?: number } = {},
): LimitsOfAgreement {
  const z = twoSidedZ(requireOpenUnit('coverage', coverage))
  const { n, sd, value, low, high } = meanSummary(pairedValues(first, second), confidence)
  const error = sd * Math.sqrt(1 / n + z ** 2 / (2 * (n - 1)))
  const half = tQuantile((1 + confidence) / 2, n - 1) * error
  const limit = (at: number): Estimate => ({ value: at, low: at - half, high: at + half, confidence, method })
  const bias = { value, low, high, confidence, method }
  return { n, bias, sd, lower: limit(value - z * sd), upper: limit(value + z * sd), coverage }
}
