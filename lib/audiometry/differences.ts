import { audiometricFrequenciesHz, type FrequencyHz } from '../units/frequencies.ts'
import { asDbGain, type DbGain } from '../units/levels.ts'
import { type AverageId, type AverageResult, averageBounds, averageConventions, pureToneAverage } from './averages.ts'
import { type Bounds, boundsOf, difference, isExact } from './bounds.ts'
import { requireAudiogram } from './domain.ts'
import type { Audiogram } from './thresholds.ts'

/**
 * A difference of two levels in dB, as far as the responses determine it.
 * `at-least` and `at-most` come from "no response" on one side; both sides without response determine nothing.
 */
export type Difference =
  | { readonly kind: 'exact' | 'at-least' | 'at-most'; readonly value: DbGain }
  | { readonly kind: 'undetermined' }

export function differenceFrom(bounds: Bounds): Difference {
  if (isExact(bounds)) return { kind: 'exact', value: asDbGain(bounds.low) }
  if (Number.isFinite(bounds.low)) return { kind: 'at-least', value: asDbGain(bounds.low) }
  if (Number.isFinite(bounds.high)) return { kind: 'at-most', value: asDbGain(bounds.high) }
  return { kind: 'undetermined' }
}

export function boundsOfDifference(of: Difference): Bounds {
  if (of.kind === 'undetermined') return { low: Number.NEGATIVE_INFINITY, high: Number.POSITIVE_INFINITY }
  return {
    low: of.kind === 'at-most' ? Number.NEGATIVE_INFINITY : of.value,
    high: of.kind === 'at-least' ? Number.POSITIVE_INFINITY : of.value,
  }
}

/**
 * `minuend` minus `subtrahend` at each frequency where both were tested, in dB, from the lowest frequency up.
 * @throws RangeError when an audiogram is out of domain
 */
export function differencesByFrequency(
  minuend: Audiogram,
  subtrahend: Audiogram,
): ReadonlyMap<FrequencyHz, Difference> {
  requireAudiogram('minuend', minuend)
  requireAudiogram('subtrahend', subtrahend)
  const differences = new Map<FrequencyHz, Difference>()
  for (const frequency of audiometricFrequenciesHz) {
    const a = boundsOf(minuend.get(frequency))
    const b = boundsOf(subtrahend.get(frequency))
    if (a && b) differences.set(frequency, differenceFrom(difference(a, b)))
  }
  return differences
}

/** Sets over which differences are averaged: plain means, without a scheme's number for "no response". */
export type DifferenceSetId = Exclude<AverageId, 'fletcher2' | 'pta4-biap' | 'pta5-bsa'>

export interface MeanDifference {
  readonly set: DifferenceSetId
  /** Absent when a frequency of the set is missing on either side. */
  readonly difference?: Difference
  readonly minuend: AverageResult
  readonly subtrahend: AverageResult
  /** Missing on either side, in the order of the set. */
  readonly missing: readonly FrequencyHz[]
}

/**
 * Mean of `minuend` minus mean of `subtrahend` over the same frequencies, in dB.
 * @throws RangeError when an audiogram is out of domain
 */
export function meanDifference(minuend: Audiogram, subtrahend: Audiogram, set: DifferenceSetId): MeanDifference {
  const of = pureToneAverage(minuend, set)
  const minus = pureToneAverage(subtrahend, set)
  const missing = averageConventions[set].frequencies.filter((f) => of.missing.includes(f) || minus.missing.includes(f))
  const a = averageBounds(of)
  const b = averageBounds(minus)
  const known = a && b && { difference: differenceFrom(difference(a, b)) }
  return { set, minuend: of, subtrahend: minus, missing, ...known }
}
