import normalCdf from '@stdlib/stats-base-dists-normal-cdf'
import normalQuantile from '@stdlib/stats-base-dists-normal-quantile'
import tQuantile from '@stdlib/stats-base-dists-t-quantile'
import { outsideDomain } from '../audiometry/domain.ts'
import { requireOpenUnit } from '../speech/counts.ts'
import { nonCentralTCdf } from './non-central-t.ts'
import type { SeriesMethod } from './series-method.ts'

export type StudyDesign = 'paired' | 'two-groups' | 'two-proportions'

export const studySizeMethods: { readonly [Design in StudyDesign]: SeriesMethod } = {
  paired: {
    id: 'power-t-paired',
    source: 'non-central t, both tails, SD of the differences; Lenth 1989 for the distribution',
    status: 'confirmed',
  },
  'two-groups': {
    id: 'power-t-two-groups',
    source: 'non-central t, both tails, equal groups of equal variance; Lenth 1989 for the distribution',
    status: 'confirmed',
  },
  'two-proportions': {
    id: 'power-two-proportions',
    source:
      'Fleiss, Statistical Methods for Rates and Proportions, 1981, 3.2 without continuity correction: normal approximation, pooled under no difference',
    status: 'confirmed',
    reservation: 'the formula was checked by R power.prop.test; the page of the book is from memory',
  },
}

/** A difference of means to be found, in the unit of the measure. */
export interface MeanEffect {
  /** Smallest difference worth finding, not 0; its sign does not matter. */
  readonly difference: number
  /** Paired: SD of the differences. Two groups: SD within a group. Above 0. */
  readonly sd: number
  /** Two-sided significance level, between 0 and 1 exclusive; 0.05 when absent. */
  readonly significance?: number
}

/** Two different proportions, each 0 to 1. */
export interface ProportionEffect {
  readonly first: number
  readonly second: number
  readonly significance?: number
}

export interface StudySize {
  /** Where the power is reached, not rounded. */
  readonly exact: number
  /** Patients (pairs), or patients in each of the two groups: `exact` rounded up. */
  readonly n: number
  readonly per: 'pairs' | 'group'
  /** Power that `n` gives; at least the power asked for. */
  readonly power: number
  readonly method: SeriesMethod
}

const largestStudy = 1e6

/**
 * Power of a paired t test with `pairs` patients.
 * @param pairs at least 2, need not be an integer
 * @returns probability of a significant difference when the true one is `effect.difference`, 0 to 1
 * @throws RangeError naming the argument, its value and its domain
 * Checked by: tests/published/r-4-2-study-size.test.ts
 */
export function pairedPower(effect: MeanEffect, pairs: number): number {
  requireStudySize('pairs', pairs)
  const { difference, sd, significance } = requireEffect(effect)
  return tPower(pairs - 1, (Math.sqrt(pairs) * difference) / sd, significance)
}

/**
 * Power of a two-sample t test with `perGroup` patients in each group.
 * @param perGroup at least 2, need not be an integer
 * @throws RangeError naming the argument, its value and its domain
 * Checked by: tests/published/r-4-2-study-size.test.ts
 */
export function twoGroupPower(effect: MeanEffect, perGroup: number): number {
  requireStudySize('perGroup', perGroup)
  const { difference, sd, significance } = requireEffect(effect)
  return tPower(2 * (perGroup - 1), (Math.sqrt(perGroup / 2) * difference) / sd, significance)
}

/**
 * Power of a comparison of two independent proportions with `perGroup` patients in each group.
 * @param perGroup at least 2, need not be an integer
 * @throws RangeError naming the argument, its value and its domain
 * Checked by: tests/published/r-4-2-study-size.test.ts
 */
export function twoProportionPower(effect: ProportionEffect, perGroup: number): number {
  requireStudySize('perGroup', perGroup)
  const { first, second, significance } = requireProportions(effect)
  const pooled = (first + second) / 2
  const criticalDifference = upperZ(significance) * Math.sqrt(2 * pooled * (1 - pooled))
  const spread = Math.sqrt(first * (1 - first) + second * (1 - second))
  const shift = Math.sqrt(perGroup) * Math.abs(first - second)
  if (spread === 0) return shift > criticalDifference ? 1 : 0
  return normalCdf((shift - criticalDifference) / spread, 0, 1)
}

/**
 * Patients that a paired comparison needs.
 * @param power wanted, between 0 and 1 exclusive; usually 0.8 or 0.9
 * @throws RangeError naming the argument, its value and its domain, and when more than a million would be needed
 * Checked by: tests/published/r-4-2-study-size.test.ts
 */
export function pairedStudySize(effect: MeanEffect, power: number): StudySize {
  requireEffect(effect)
  return studySize((n) => pairedPower(effect, n), power, { per: 'pairs', method: studySizeMethods.paired })
}

/** Patients in each group that a comparison of two means needs; arguments and errors as `pairedStudySize`. */
export function twoGroupStudySize(effect: MeanEffect, power: number): StudySize {
  requireEffect(effect)
  return studySize((n) => twoGroupPower(effect, n), power, { per: 'group', method: studySizeMethods['two-groups'] })
}

/** Patients in each group that a comparison of two proportions needs; errors as `pairedStudySize`. */
export function twoProportionStudySize(effect: ProportionEffect, power: number): StudySize {
  requireProportions(effect)
  const method = studySizeMethods['two-proportions']
  return studySize((n) => twoProportionPower(effect, n), power, { per: 'group', method })
}

function tPower(degreesOfFreedom: number, ncp: number, significance: number): number {
  const critical = tQuantile(1 - significance / 2, degreesOfFreedom)
  const bounded = Math.min(1000, Math.abs(ncp))
  const missed =
    nonCentralTCdf(critical, degreesOfFreedom, bounded) - nonCentralTCdf(-critical, degreesOfFreedom, bounded)
  return Math.min(1, Math.max(0, 1 - missed))
}

function studySize(
  powerAt: (n: number) => number,
  power: number,
  stated: Pick<StudySize, 'per' | 'method'>,
): StudySize {
  requireOpenUnit('power', power)
  const exact = smallestReaching(powerAt, power)
  const n = Math.ceil(exact)
  return { exact, n, power: powerAt(n), ...stated }
}

/** The size at which a rising power reaches the target, by bisection to 1e-9 of the size; 2 when two already do. */
function smallestReaching(powerAt: (n: number) => number, target: number): number {
  if (powerAt(2) >= target) return 2
  let low = 2
  let high = 4
  while (powerAt(high) < target) {
    low = high
    high *= 2
    if (high > largestStudy) throw outsideDomain('the study size', `more than ${largestStudy}`, 'smaller: ask for less')
  }
  while (high - low > 1e-9 * high) {
    const middle = (low + high) / 2
    if (powerAt(middle) < target) low = middle
    else high = middle
  }
  return high
}

function requireEffect({ difference, sd, significance = 0.05 }: MeanEffect): Required<MeanEffect> {
  if (!Number.isFinite(difference) || difference === 0) {
    throw outsideDomain('difference', difference, 'a finite number other than 0')
  }
  if (!(sd > 0 && sd < Number.POSITIVE_INFINITY)) throw outsideDomain('sd', sd, 'a finite number above 0')
  return { difference, sd, significance: requireOpenUnit('significance', significance) }
}

function requireProportions({ first, second, significance = 0.05 }: ProportionEffect): Required<ProportionEffect> {
  requireUnit('first', first)
  requireUnit('second', second)
  if (first === second) throw outsideDomain('second', second, 'different from first')
  return { first, second, significance: requireOpenUnit('significance', significance) }
}

function requireUnit(argument: string, value: number): void {
  if (!(value >= 0 && value <= 1)) throw outsideDomain(argument, value, 'a proportion from 0 to 1')
}

function requireStudySize(argument: string, n: number): void {
  if (!(n >= 2 && n <= 2 * largestStudy)) throw outsideDomain(argument, n, `from 2 to ${2 * largestStudy}`)
}

/** The normal deviate that a two-sided test at `significance` must exceed. */
const upperZ = (significance: number): number => normalQuantile(1 - significance / 2, 0, 1)
