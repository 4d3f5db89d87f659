import type { FrequencyHz } from '../units/frequencies.ts'
import { type Finding, finding } from './findings.ts'
import type { BothEars } from './pairs.ts'
import type { Audiogram } from './thresholds.ts'

export interface EarlierTest {
  /** ISO date of the test. */
  readonly date: string
  readonly air: BothEars<Audiogram>
}

/** At least so many frequencies must be heard in all four audiograms. */
const enoughFrequencies = 3
/** Each ear must be this much nearer to the other ear of the earlier test than to itself, in dB. */
const nearerBy = 10
/** And no further from it than test-retest error allows a mean to be, in dB. */
const nearEnough = 10

/**
 * Suspicion that right and left were exchanged: this test's ears resemble the earlier test's other ears far more than
 * themselves. Silent when the ears are alike, or when neither assignment fits.
 * Source: common practice, no source; the three limits are choices of this board.
 */
export function swappedEars(now: BothEars<Audiogram>, earlier: EarlierTest): readonly Finding[] {
  const frequencies = heardInAll([now.right, now.left, earlier.air.right, earlier.air.left])
  if (frequencies.length < enoughFrequencies) return []
  const distance = (a: Audiogram, b: Audiogram) => meanDistance(a, b, frequencies)
  const sameEar = (distance(now.right, earlier.air.right) + distance(now.left, earlier.air.left)) / 2
  const otherEar = (distance(now.right, earlier.air.left) + distance(now.left, earlier.air.right)) / 2
  if (otherEar > nearEnough || sameEar - otherEar < nearerBy) return []
  return [finding('ears-swapped', { route: 'air' }, { sameEar, otherEar, frequencies, earlierDate: earlier.date })]
}

function heardInAll(audiograms: readonly [Audiogram, ...Audiogram[]]): readonly FrequencyHz[] {
  const heard = (audiogram: Audiogram, frequency: FrequencyHz) => audiogram.get(frequency)?.kind === 'heard'
  return [...audiograms[0].keys()]
    .filter((frequency) => audiograms.every((audiogram) => heard(audiogram, frequency)))
    .toSorted((a, b) => a - b)
}

function meanDistance(a: Audiogram, b: Audiogram, frequencies: readonly FrequencyHz[]): number {
  const distances = frequencies.map((frequency) => Math.abs(levelAt(a, frequency) - levelAt(b, frequency)))
  return distances.reduce((sum, distance) => sum + distance, 0) / frequencies.length
}

function levelAt(audiogram: Audiogram, frequency: FrequencyHz): number {
  const threshold = audiogram.get(frequency)
  if (threshold?.kind !== 'heard') throw new TypeError(`no level heard at ${frequency} Hz`)
  return threshold.level
}
