import type { FrequencyHz } from '../units/frequencies.ts'
import { boundsOf } from './bounds.ts'
import { requireAudiogram } from './domain.ts'
import {
  type AgeGroup,
  type AgeNorm,
  ageNorm,
  isIso7029Frequency,
  iso7029Editions,
  percentileOf,
  thresholdAtShare,
} from './iso-7029.ts'
import type { Audiogram, Threshold } from './thresholds.ts'

/** Shares of the group between which a threshold counts as expected for age. Common practice, no source. */
export const expectedShares = { best: 0.1, worst: 0.9 } as const

export interface ThresholdForAge {
  readonly frequency: FrequencyHz
  readonly norm: AgeNorm
  readonly expectedFrom: number
  readonly expectedTo: number
  /** Percent of the group that hears as well or better; a lower bound for "no response". */
  readonly percentile: number
  readonly percentileIsLowerBound: boolean
  readonly verdict: 'as expected' | 'worse than expected' | 'better than expected' | 'cannot tell'
}

export interface InnerEarForAge {
  readonly group: AgeGroup
  /** Empty when the age is outside the edition, or no bone-conduction threshold is there. */
  readonly thresholds: readonly ThresholdForAge[]
  readonly ageOutside: boolean
}

/**
 * Whether bone conduction - the inner ear's part of the loss - is what the patient's age and sex lead to expect, at each
 * tested frequency of ISO 7029. The norm describes air conduction of otologically normal ears, which is their bone
 * conduction too. A percentile places one ear in the distribution; it does not say how much of a loss age has caused.
 * @returns no thresholds and `ageOutside` when the edition does not cover the age
 * @throws RangeError when the audiogram is out of domain
 */
export function innerEarForAge(bone: Audiogram, group: AgeGroup): InnerEarForAge {
  requireAudiogram('bone', bone)
  const { youngest, oldest } = iso7029Editions[group.edition]
  if (!(group.age >= youngest && group.age <= oldest)) return { group, thresholds: [], ageOutside: true }
  const tested = [...bone].toSorted(([a], [b]) => a - b)
  const thresholds = tested.flatMap(([frequency, threshold]) => forAge(frequency, threshold, group))
  return { group, thresholds, ageOutside: false }
}

function forAge(frequency: FrequencyHz, threshold: Threshold, group: AgeGroup): readonly ThresholdForAge[] {
  const bounds = boundsOf(threshold)
  if (bounds === undefined || !isIso7029Frequency(frequency)) return []
  const norm = ageNorm(group, frequency)
  const expectedFrom = thresholdAtShare(norm, expectedShares.best)
  const expectedTo = thresholdAtShare(norm, expectedShares.worst)
  const isLimit = threshold.kind === 'no-response'
  return [
    {
      frequency,
      norm,
      expectedFrom,
      expectedTo,
      percentile: percentileOf(norm, bounds.low),
      percentileIsLowerBound: isLimit,
      verdict: verdictOf(bounds.low, isLimit, expectedFrom, expectedTo),
    },
  ]
}

function verdictOf(level: number, isLimit: boolean, from: number, to: number): ThresholdForAge['verdict'] {
  if (level > to) return 'worse than expected'
  if (isLimit) return 'cannot tell'
  return level < from ? 'better than expected' : 'as expected'
}
