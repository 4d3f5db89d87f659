import type { Bounds } from '../audiometry/bounds.ts'
import { boundsOf } from '../audiometry/bounds.ts'
import { repeatability } from '../audiometry/test-retest.ts'
import type { Route } from '../audiometry/thresholds.ts'
import { audiometricFrequenciesHz, type FrequencyHz } from '../units/frequencies.ts'
import type { EarMeasured, Sourced } from './ear-course.ts'

export type WatchedMeasure =
  | 'air-conduction'
  | 'bone-conduction'
  | 'air-bone-gap'
  | 'aided-threshold'
  | 'effective-gain'
  | 'functional-gain'

/** Measures of which more is better; of the others, which are thresholds and a gap, less is. */
export const isGain = (measure: WatchedMeasure): boolean =>
  measure === 'effective-gain' || measure === 'functional-gain'

/** One threshold with its weight in a value. Equal keys are one and the same measurement. */
interface Term {
  readonly key: string
  readonly weight: number
  readonly bounds: Bounds
  /** standard uncertainty of the threshold, dB */
  readonly uncertainty: number
}

/** A mean over a band, or a difference of two: a weighted sum of thresholds. */
export interface BandValue {
  readonly terms: readonly Term[]
}

/** A value in dB (HL) with the standard uncertainty of its measurement. */
export interface Measured {
  readonly value: Bounds
  readonly sdDb: number
}

const octaves: readonly FrequencyHz[] = [125, 250, 500, 1000, 2000, 4000, 8000]

/** What has to be measured of a band: its octaves and both its ends. */
export const neededIn = (from: FrequencyHz, to: FrequencyHz): readonly FrequencyHz[] =>
  inBand(from, to).filter((frequency) => octaves.includes(frequency) || frequency === from || frequency === to)

export const inBand = (from: FrequencyHz, to: FrequencyHz): readonly FrequencyHz[] =>
  audiometricFrequenciesHz.filter((frequency) => frequency >= from && frequency <= to)

type Part = readonly [sign: 1 | -1, route: Route, from: Sourced | undefined]

/**
 * The thresholds that a measure is made of. The bone conduction of a gain is that of the same day, or else that before
 * the operation; so are the unaided thresholds of a functional gain, in the sound field or else by earphone.
 */
function partsOf(measure: WatchedMeasure, ear: EarMeasured, before: EarMeasured): readonly Part[] {
  switch (measure) {
    case 'air-conduction':
      return [[1, 'air', ear.air]]
    case 'bone-conduction':
      return [[1, 'bone', ear.bone]]
    case 'air-bone-gap':
      return [
        [1, 'air', ear.air],
        [-1, 'bone', ear.bone],
      ]
    case 'aided-threshold':
      return [[1, 'aided', ear.aided]]
    case 'effective-gain':
      return [
        [1, 'bone', ear.bone ?? before.bone],
        [-1, 'aided', ear.aided],
      ]
    case 'functional-gain': {
      const field = ear.soundField ?? before.soundField
      const unaided: Part = field === undefined ? [1, 'air', before.air] : [1, 'sound-field', field]
      return [unaided, [-1, 'aided', ear.aided]]
    }
    default:
      return measure satisfies never
  }
}

/** Of these frequencies, the ones at which every part of the measure has a threshold or the lack of a response. */
export function measuredAt(
  measure: WatchedMeasure,
  ear: EarMeasured,
  before: EarMeasured,
  frequencies: readonly FrequencyHz[],
): readonly FrequencyHz[] {
  const parts = partsOf(measure, ear, before)
  return frequencies.filter((frequency) =>
    parts.every(([, , from]) => boundsOf(from?.thresholds.get(frequency)) !== undefined),
  )
}

/**
 * Mean of a measure over frequencies at which it was measured.
 * @throws RangeError when there is no frequency, or one at which a part is missing
 */
export function bandValue(
  measure: WatchedMeasure,
  ear: EarMeasured,
  before: EarMeasured,
  frequencies: readonly FrequencyHz[],
): BandValue {
  if (frequencies.length === 0) throw new RangeError('frequencies is empty, but a mean needs at least one')
  const parts = partsOf(measure, ear, before)
  const terms = parts.flatMap(([sign, route, from]) =>
    frequencies.map((frequency) => {
      const bounds = boundsOf(from?.thresholds.get(frequency))
      if (from === undefined || bounds === undefined)
        throw new RangeError(`${measure} was not measured at ${frequency} Hz`)
      return {
        key: `${from.source} ${route} ${frequency}`,
        weight: sign / frequencies.length,
        bounds,
        uncertainty: repeatability(route, frequency).standardUncertainty,
      }
    }),
  )
  return { terms }
}

/** `a - b`. What both have in common, such as one bone conduction in two gains, cancels, and its error with it. */
export function valueDifference(a: BandValue, b: BandValue): BandValue {
  const terms = new Map<string, Term>()
  for (const [sign, { terms: those }] of [[1, a] as const, [-1, b] as const])
    for (const term of those) {
      const weight = (terms.get(term.key)?.weight ?? 0) + sign * term.weight
      terms.set(term.key, { ...term, weight })
    }
  return { terms: [...terms.values()].filter(({ weight }) => Math.abs(weight) > 1e-12) }
}

/**
 * The value with the uncertainty of its thresholds taken as independent (ISO 8253-1, A.2). An error common to several
 * of them, such as the place of the loudspeaker, is not in it.
 */
export function measuredValue({ terms }: BandValue): Measured {
  const sum = (of: (term: Term) => number) => terms.reduce((total, term) => total + of(term), 0)
  const low = sum(({ weight, bounds }) => weight * (weight > 0 ? bounds.low : bounds.high))
  const high = sum(({ weight, bounds }) => weight * (weight > 0 ? bounds.high : bounds.low))
  return {
    value: { low: toNanoDb(low), high: toNanoDb(high) },
    sdDb: Math.sqrt(sum(({ weight, uncertainty }) => (weight * uncertainty) ** 2)),
  }
}

const toNanoDb = (value: number): number => Math.round(value * 1e9) / 1e9
