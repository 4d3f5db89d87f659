import type { Audiogram, Threshold } from '../audiometry/thresholds.ts'
import { audiometricFrequenciesHz, type FrequencyHz } from '../units/frequencies.ts'
import { type HearingTest, type Point, type PointRoute, pointKey } from './records/hearing-test.ts'

type Points = HearingTest['points']

/**
 * The thresholds of a test by one route, in the order of frequency.
 *
 * Where both were entered at a frequency, the masked point stands and the unmasked one does not count, also when the
 * masked one says "could not test": an unmasked level that masking could not confirm may belong to the other ear.
 * Source: BSA Recommended Procedure, pure-tone audiometry, 2018, rules for masking (from memory, unconfirmed).
 */
export function audiogramOf(points: Points, route: PointRoute): Audiogram {
  const thresholds = new Map<FrequencyHz, Threshold>()
  for (const frequency of audiometricFrequenciesHz) {
    const standing = standingPoint(points, route, frequency)
    if (standing !== undefined) thresholds.set(frequency, thresholdOf(standing.point, standing.masked))
  }
  return thresholds
}

export interface StandingPoint {
  readonly point: Point
  readonly masked: boolean
}

/** The point that counts at a frequency: the masked one, or else the unmasked one. */
export function standingPoint(points: Points, route: PointRoute, frequency: FrequencyHz): StandingPoint | undefined {
  for (const masked of [true, false]) {
    const point = points[pointKey({ route, masked, frequency })]
    if (point !== undefined) return { point, masked }
  }
  return undefined
}

function thresholdOf(point: Point, masked: boolean): Threshold {
  return point.kind === 'could-not-test' ? { kind: 'could-not-test' } : { ...point, masked }
}
