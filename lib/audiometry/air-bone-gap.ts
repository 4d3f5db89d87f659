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

/** Frequency sets over which a mean gap is taken: plain means without a scheme's number for "no response". */
export type GapSetId = Extract<AverageId, 'pta4-aao' | 'pta4-who' | 'pta3' | 'hf-bone'>

/** Air and bone conduction of one ear, measured on one date: a gap across two dates cannot be written down. */
export interface AirAndBone {
  readonly air: Audiogram
  readonly bone: Audiogram
}

export interface MeanGapResult {
  readonly set: GapSetId
  /** Absent when a frequency is missing in air or bone conduction. */
  readonly gap?: Difference
  readonly air: AverageResult
  readonly bone: AverageResult
}

/**
 * The air-bone gap at each frequency where both routes were tested: air minus bone conduction, in dB.
 * A negative gap stays negative.
 * @throws RangeError when an audiogram is out of domain
 * Source: AAO-HNS Committee on Hearing and Equilibrium 1995 (gap of the same test date).
 */
export function airBoneGaps({ air, bone }: AirAndBone): ReadonlyMap<FrequencyHz, Difference> {
  requireAudiogram('air', air)
  requireAudiogram('bone', bone)
  const gaps = new Map<FrequencyHz, Difference>()
  for (const frequency of audiometricFrequenciesHz) {
    const airLevel = boundsOf(air.get(frequency))
    const boneLevel = boundsOf(bone.get(frequency))
    if (airLevel && boneLevel) gaps.set(frequency, differenceFrom(difference(airLevel, boneLevel)))
  }
  return gaps
}

/**
 * Mean air minus mean bone conduction over the same frequencies, in dB.
 * @returns no gap when a frequency is missing in either route; `air.missing` and `bone.missing` say which
 * @throws RangeError when an audiogram is out of domain
 * Source: AAO-HNS Committee on Hearing and Equilibrium 1995. Checked by: tests/published/aao-hns-1995.test.ts
 */
export function meanAirBoneGap({ air, bone }: AirAndBone, set: GapSetId): MeanGapResult {
  const airAverage = pureToneAverage(air, set)
  const boneAverage = pureToneAverage(bone, set)
  const bounds = gapBounds(airAverage, boneAverage)
  const result = { set, air: airAverage, bone: boneAverage }
  return bounds === undefined ? result : { ...result, gap: differenceFrom(bounds) }
}

function gapBounds(air: AverageResult, bone: AverageResult): Bounds | undefined {
  const airBounds = averageBounds(air)
  const boneBounds = averageBounds(bone)
  return airBounds && boneBounds && difference(airBounds, boneBounds)
}

/** Frequencies of the set without a threshold in air or in bone conduction, in the order of the set. */
export function missingForGap({ set, air, bone }: MeanGapResult): readonly FrequencyHz[] {
  const missing = new Set([...air.missing, ...bone.missing])
  return averageConventions[set].frequencies.filter((frequency) => missing.has(frequency))
}
