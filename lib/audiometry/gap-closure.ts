import type { FrequencyHz } from '../units/frequencies.ts'
import { type AirAndBone, airBoneGaps, meanAirBoneGap } from './air-bone-gap.ts'
import { type Bounds, type Decided, difference, isAbove } from './bounds.ts'
import {
  boundsOfDifference,
  type Difference,
  type DifferenceSetId,
  differenceFrom,
  type MeanDifference,
} from './differences.ts'
import type { BeforeAndAfter } from './pairs.ts'
import type { Provenance } from './provenance.ts'

/** Printed as 0-10, 11-20, 21-30 and more; averages fall between, so these are cut-offs with the upper one included. */
export const gapBins = ['<= 10', '> 10 to 20', '> 20 to 30', '> 30'] as const
export type GapBin = (typeof gapBins)[number]

export const gapReporting: Provenance = {
  source: 'AAO-HNS Committee on Hearing and Equilibrium, Otolaryngol Head Neck Surg 113:186-187, 1995',
  status: 'confirmed',
  reservation: 'the bins are from memory, unconfirmed',
}

/**
 * The reporting bin of a postoperative air-bone gap in dB; a negative gap belongs to the first.
 * @returns undefined when "no response" leaves more than one bin possible
 */
export function gapBin(gap: Difference): GapBin | undefined {
  const { low, high } = boundsOfDifference(gap)
  const bin = binAt(low)
  return bin === binAt(high) ? bin : undefined
}

function binAt(gapDb: number): GapBin {
  if (gapDb <= 10) return '<= 10'
  if (gapDb <= 20) return '> 10 to 20'
  return gapDb <= 30 ? '> 20 to 30' : '> 30'
}

export interface GapClosureResult {
  readonly before: MeanDifference
  readonly after: MeanDifference
  /** Gap before minus gap after, in dB: positive is better. Absent when either mean gap is. */
  readonly closure?: Difference
  readonly binAfter?: GapBin
  /** The gap after is 10 dB or less; undefined when it cannot be decided. */
  readonly closedWithin10Db: Decided
  readonly byFrequency: ReadonlyMap<FrequencyHz, Difference>
}

/**
 * Closure of the air-bone gap of one ear; each gap from air and bone conduction of its own date.
 * @throws RangeError when an audiogram is out of domain
 * Source: `gapReporting`. Checked by: tests/published/aao-hns-1995.test.ts
 */
export function gapClosure(
  { before, after }: BeforeAndAfter<AirAndBone>,
  set: DifferenceSetId = 'pta4-aao',
): GapClosureResult {
  const gapBefore = meanAirBoneGap(before, set)
  const gapAfter = meanAirBoneGap(after, set)
  return {
    before: gapBefore,
    after: gapAfter,
    ...changeOf(gapBefore.difference, gapAfter.difference),
    ...binOf(gapAfter.difference),
    closedWithin10Db: isClosed(gapAfter.difference),
    byFrequency: closureByFrequency(airBoneGaps(before), airBoneGaps(after)),
  }
}

function changeOf(before: Difference | undefined, after: Difference | undefined): { closure?: Difference } {
  if (before === undefined || after === undefined) return {}
  return { closure: differenceFrom(changeBounds(before, after)) }
}

/** Both gaps can be unbounded on either side, where a plain subtraction would give infinity minus infinity. */
function changeBounds(before: Difference, after: Difference): Bounds {
  const { low, high } = difference(boundsOfDifference(before), boundsOfDifference(after))
  return {
    low: Number.isNaN(low) ? Number.NEGATIVE_INFINITY : low,
    high: Number.isNaN(high) ? Number.POSITIVE_INFINITY : high,
  }
}

function binOf(gap: Difference | undefined): { binAfter?: GapBin } {
  const binAfter = gap && gapBin(gap)
  return binAfter === undefined ? {} : { binAfter }
}

function isClosed(gap: Difference | undefined): Decided {
  const open = gap && isAbove(boundsOfDifference(gap), 10)
  return open === undefined ? undefined : !open
}

type Gaps = ReadonlyMap<FrequencyHz, Difference>

function closureByFrequency(before: Gaps, after: Gaps): Gaps {
  const closures = new Map<FrequencyHz, Difference>()
  for (const [frequency, gap] of before) {
    const later = after.get(frequency)
    if (later !== undefined) closures.set(frequency, differenceFrom(changeBounds(gap, later)))
  }
  return closures
}
