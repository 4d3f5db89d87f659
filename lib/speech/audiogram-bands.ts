import { outsideDomain, requireAudiogram } from '../audiometry/domain.ts'
import type { Audiogram, Threshold } from '../audiometry/thresholds.ts'
import type { FrequencyHz } from '../units/frequencies.ts'

/** A value at a frequency, before it is spread over bands. */
export interface Point {
  readonly frequencyHz: number
  readonly value: number
}

/** A threshold that can be put into a band: measured, or the limit at which nothing was heard. */
export interface TestedPoint extends Point {
  readonly frequencyHz: FrequencyHz
  /** The true threshold is worse than `value`. */
  readonly beyondLimit: boolean
}

/** The threshold of one band, in dB HL, and how it was come by. */
export interface BandThreshold {
  readonly frequencyHz: number
  readonly levelDbHl: number
  /** At least one of the neighbours was "no response": the true threshold is at least this. */
  readonly lowerBound: boolean
  /** Outside the tested range: the value of the nearest tested frequency is held. */
  readonly held: boolean
}

/**
 * Thresholds of an audiogram spread over the bands of a procedure, in dB HL: linear interpolation of the level against
 * the logarithm of frequency, end values held. "No response" stands at the audiometer's limit and marks every band
 * that leans on it as a lower bound; what could not be tested is left out.
 * @throws RangeError when a level is outside -20 to 130 dB HL, or when no frequency was tested
 * Source: linear against log frequency: common practice, as in the public R implementation of ANSI S3.5-1997; the
 * standard asks for thresholds at its own band centres. Checked by: tests/unit/speech/audiogram-bands.test.ts
 */
export function bandThresholds(audiogram: Audiogram, bandsHz: readonly number[]): readonly BandThreshold[] {
  const points = testedPoints(requireAudiogram('audiogram', audiogram))
  if (points.length === 0) throw outsideDomain('the number of tested frequencies in audiogram', 0, 'at least 1')
  return bandsHz.map((frequencyHz) => {
    const { below, above, weight } = neighbours(points, frequencyHz)
    const levelDbHl = below.value + weight * (above.value - below.value)
    const lowerBound = below.beyondLimit || above.beyondLimit
    return { frequencyHz, levelDbHl, lowerBound, held: below === above && below.frequencyHz !== frequencyHz }
  })
}

/** Tested points of an audiogram from low to high frequency; frequencies that could not be tested are left out. */
export function testedPoints(audiogram: Audiogram): readonly TestedPoint[] {
  return [...audiogram]
    .map(([frequencyHz, threshold]) => testedPoint(frequencyHz, threshold))
    .filter((point) => point !== undefined)
    .toSorted((a, b) => a.frequencyHz - b.frequencyHz)
}

function testedPoint(frequencyHz: FrequencyHz, threshold: Threshold): TestedPoint | undefined {
  switch (threshold.kind) {
    case 'heard':
      return { frequencyHz, value: threshold.level, beyondLimit: false }
    case 'no-response':
      return { frequencyHz, value: threshold.limit, beyondLimit: true }
    case 'could-not-test':
      return undefined
    default:
      return threshold satisfies never
  }
}

/** Interpolates values linearly against log frequency, holding the end values; `points` rise in frequency. */
export function interpolateToBands(points: readonly Point[], bandsHz: readonly number[]): readonly number[] {
  return bandsHz.map((frequencyHz) => {
    const { below, above, weight } = neighbours(points, frequencyHz)
    return below.value + weight * (above.value - below.value)
  })
}

interface Neighbours<P extends Point> {
  readonly below: P
  readonly above: P
  /** Share of `above`, 0 to 1, on a logarithmic scale. */
  readonly weight: number
}

function neighbours<P extends Point>(points: readonly P[], frequencyHz: number): Neighbours<P> {
  const below = points.findLast((point) => point.frequencyHz <= frequencyHz) ?? points[0]
  const above = points.find((point) => point.frequencyHz >= frequencyHz) ?? points.at(-1)
  if (below === undefined || above === undefined)
    throw outsideDomain('the number of points', points.length, 'at least 1')
  if (below.frequencyHz >= frequencyHz) return { below, above: below, weight: 0 }
  if (above.frequencyHz <= frequencyHz) return { below: above, above, weight: 0 }
  const weight = Math.log(frequencyHz / below.frequencyHz) / Math.log(above.frequencyHz / below.frequencyHz)
  return { below, above, weight }
}
