import { outsideDomain } from '../audiometry/domain.ts'
import { twoSidedZ } from '../speech/binomial-interval.ts'
import { requireOpenUnit } from '../speech/counts.ts'
import { requireSample } from './mean-interval.ts'
import { mannWhitneyCdf, signedRankCdf } from './rank-distributions.ts'
import type { Estimate, SeriesMethod } from './series-method.ts'

/** Larger samples take the normal approximation of the rank; R 4 changes over at the same size. */
const exactBelow = 50

/** More pairs than these would stop the page that asks; a series of this board is far smaller. */
const mostPairs = 1_000_000

export interface HodgesLehmann extends Estimate {
  /**
   * What the limits really hold: at least `confidence` for exact limits of a sample large enough, and less for one so
   * small that even the whole range does not reach it (one sample of fewer than 6 at 0.95).
   */
  readonly achievedConfidence: number
  readonly limits: 'exact' | 'normal-approximation'
}

const oneSampleMethod: SeriesMethod = {
  id: 'hodges-lehmann-one-sample',
  source:
    'Hodges and Lehmann, Ann Math Stat 34:598-611, 1963: median of the Walsh averages; limits by the signed-rank distribution',
  status: 'confirmed',
  reservation: 'with ties or zeros the exact limits are approximate',
}

const twoSampleMethod: SeriesMethod = {
  id: 'hodges-lehmann-two-sample',
  source:
    'Hodges and Lehmann, Ann Math Stat 34:598-611, 1963: median of all pairwise differences; limits by the Mann-Whitney distribution',
  status: 'confirmed',
  reservation: 'with ties the exact limits are approximate',
}

/**
 * Hodges-Lehmann centre of one sample (of paired differences, say) with distribution-free limits: the median of the
 * averages of every pair, each value paired with itself too.
 * @param values at least two finite numbers, at most 1,413
 * @param confidence between 0 and 1 exclusive
 * @returns exact limits below 50 values, else those of the normal approximation without continuity correction
 * @throws RangeError naming the argument, its value and its domain
 * Checked by: tests/published/r-4-2-hodges-lehmann.test.ts
 */
export function hodgesLehmann(values: readonly number[], confidence = 0.95): HodgesLehmann {
  requireSample('values', values)
  requireOpenUnit('confidence', confidence)
  const n = values.length
  requirePairs('values', (n * (n + 1)) / 2)
  const averages = values.flatMap((value, index) => values.slice(index).map((other) => (value + other) / 2))
  const ordered = averages.sort((a, b) => a - b)
  const spread = Math.sqrt((n * (n + 1) * (2 * n + 1)) / 24)
  const rank = n < exactBelow ? exactRank(signedRankCdf(n), confidence) : normalRank(ordered.length, spread, confidence)
  return estimateOf(ordered, rank, { confidence, method: oneSampleMethod })
}

/**
 * Hodges-Lehmann shift between two independent samples: the median of all differences `first - second`.
 * @param first at least two finite numbers; @param second the same; at most a million pairs
 * @param confidence between 0 and 1 exclusive
 * @returns exact limits when both samples are below 50, else those of the normal approximation
 * @throws RangeError naming the argument, its value and its domain
 * Checked by: tests/published/r-4-2-hodges-lehmann.test.ts
 */
export function hodgesLehmannShift(
  first: readonly number[],
  second: readonly number[],
  confidence = 0.95,
): HodgesLehmann {
  requireSample('first', first)
  requireSample('second', second)
  requireOpenUnit('confidence', confidence)
  const [m, n] = [first.length, second.length]
  requirePairs('first and second', m * n)
  const ordered = first.flatMap((value) => second.map((other) => value - other)).sort((a, b) => a - b)
  const spread = Math.sqrt((m * n * (m + n + 1)) / 12)
  const exact = m < exactBelow && n < exactBelow
  const rank = exact ? exactRank(mannWhitneyCdf(m, n), confidence) : normalRank(m * n, spread, confidence)
  return estimateOf(ordered, rank, { confidence, method: twoSampleMethod })
}

interface LimitRank {
  /** The lower limit is the `rank`-th smallest value, the upper the `rank`-th largest. */
  readonly rank: number
  readonly achievedConfidence: number
  readonly limits: HodgesLehmann['limits']
}

function exactRank(cdf: readonly number[], confidence: number): LimitRank {
  const tail = (1 - confidence) / 2
  const quantile = cdf.findIndex((probability) => probability >= tail)
  const rank = Math.max(1, quantile)
  return { rank, achievedConfidence: 1 - 2 * (cdf[rank - 1] ?? 0), limits: 'exact' }
}

function normalRank(count: number, spread: number, confidence: number): LimitRank {
  const rank = Math.max(1, Math.round(count / 2 - twoSidedZ(confidence) * spread))
  return { rank, achievedConfidence: confidence, limits: 'normal-approximation' }
}

function estimateOf(
  ordered: readonly number[],
  { rank, achievedConfidence, limits }: LimitRank,
  stated: Pick<HodgesLehmann, 'confidence' | 'method'>,
): HodgesLehmann {
  const low = ordered[rank - 1] ?? Number.NEGATIVE_INFINITY
  const high = ordered[ordered.length - rank] ?? Number.POSITIVE_INFINITY
  return { value: medianOf(ordered), low, high, achievedConfidence, limits, ...stated }
}

/** Median of values in rising order; there is at least one. */
function medianOf(ordered: readonly number[]): number {
  const middle = (ordered.length - 1) / 2
  const below = ordered[Math.floor(middle)] ?? 0
  const above = ordered[Math.ceil(middle)] ?? 0
  return (below + above) / 2
}

function requirePairs(argument: string, pairs: number): void {
  if (pairs > mostPairs) throw outsideDomain(`the number of pairs of ${argument}`, pairs, `at most ${mostPairs}`)
}
