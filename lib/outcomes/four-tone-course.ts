import type { FrequencyHz } from '../units/frequencies.ts'
import { bandValue, type Measured, measuredAt, measuredValue, type WatchedMeasure } from './band-value.ts'
import type { EarCourse, EarMeasured } from './ear-course.ts'

/** Mean of 0.5, 1, 2 and 4 kHz, as the forecast has it: the set of the World Report on Hearing, 2021. */
export const fourTonesHz = [500, 1000, 2000, 4000] as const satisfies readonly FrequencyHz[]

export const courseMeasures = [
  'air-conduction',
  'bone-conduction',
  'aided-threshold',
  'effective-gain',
  'functional-gain',
] as const satisfies readonly WatchedMeasure[]

/** One measure of an ear over its visits; absent where a tone was not measured. */
export interface FourToneAt {
  readonly measure: (typeof courseMeasures)[number]
  readonly before: Measured | undefined
  /** in the order of the course's visits */
  readonly visits: readonly (Measured | undefined)[]
}

/** @returns undefined where one of the four tones was not measured */
export function fourToneMean(measure: WatchedMeasure, ear: EarMeasured, before: EarMeasured): Measured | undefined {
  if (measuredAt(measure, ear, before, fourTonesHz).length < fourTonesHz.length) return undefined
  return measuredValue(bandValue(measure, ear, before, fourTonesHz))
}

/** Means over four tones of every measure, before the operation and at every visit. */
export const fourToneCourse = ({ before, visits }: EarCourse): readonly FourToneAt[] =>
  courseMeasures.map((measure) => ({
    measure,
    before: fourToneMean(measure, before, before),
    visits: visits.map(({ ear }) => fourToneMean(measure, ear, before)),
  }))
