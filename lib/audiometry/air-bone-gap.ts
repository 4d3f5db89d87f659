import type { FrequencyHz } from '../units/frequencies.ts'
import {
  type Difference,
  type DifferenceSetId,
  differencesByFrequency,
  type MeanDifference,
  meanDifference,
} from './differences.ts'
import type { Audiogram } from './thresholds.ts'

/** Air and bone conduction of one ear, measured on one date: a gap across two dates cannot be written down. */
export interface AirAndBone {
  readonly air: Audiogram
  readonly bone: Audiogram
}

/**
 * The air-bone gap at each frequency where both routes were tested: air minus bone conduction, in dB.
 * A negative gap stays negative.
 * @throws RangeError when an audiogram is out of domain
 * Source: AAO-HNS Committee on Hearing and Equilibrium 1995 (gap of the same test date).
 */
export function airBoneGaps({ air, bone }: AirAndBone): ReadonlyMap<FrequencyHz, Difference> {
  return differencesByFrequency(air, bone)
}

/**
 * Mean air minus mean bone conduction over the same frequencies, in dB.
 * @returns no difference when a frequency is missing in either route, and which
 * @throws RangeError when an audiogram is out of domain
 * Source: AAO-HNS Committee on Hearing and Equilibrium 1995. Checked by: tests/published/aao-hns-1995.test.ts
 */
export function meanAirBoneGap({ air, bone }: AirAndBone, set: DifferenceSetId): MeanDifference {
  return meanDifference(air, bone, set)
}
