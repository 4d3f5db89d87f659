import type { Audiogram } from '../audiometry/thresholds.ts'
import type { WordScore } from '../speech/word-score.ts'
import type { FrequencyHz } from '../units/frequencies.ts'

/** Thresholds of one route, and where they were measured: two with the same `source` are the same measurement. */
export interface Sourced {
  readonly source: string
  readonly thresholds: Audiogram
}

/** What was measured of one ear on one occasion; a route that was not is absent. */
export interface EarMeasured {
  readonly air?: Sourced
  readonly bone?: Sourced
  /** loudspeaker without a device */
  readonly soundField?: Sourced
  readonly aided?: Sourced
}

/** Words right of one list of monosyllables in quiet. */
export interface ScoreMeasured {
  readonly condition: 'unaided' | 'sound-field' | 'aided'
  readonly levelDbSpl: number
  readonly score: WordScore
}

export interface VisitMeasured {
  readonly visit: string
  /** calendar day */
  readonly on: string
  /** instant at which the last of what counts was written down */
  readonly writtenAt: string
  readonly isFirstFitting: boolean
  readonly ear: EarMeasured
  readonly otherEar: EarMeasured
  readonly words: readonly ScoreMeasured[]
}

/** Expected values of a sealed forecast at one frequency: dB HL and dB; what is no estimate is absent. */
export interface ForecastAt {
  readonly frequency: FrequencyHz
  readonly aidedThreshold?: number
  readonly effectiveGain?: number
}

/** An ear before its operation and at every visit since, in the order of time. */
export interface EarCourse {
  readonly before: EarMeasured
  readonly otherBefore: EarMeasured
  readonly wordsBefore: readonly ScoreMeasured[]
  readonly visits: readonly VisitMeasured[]
  /** absent: none was sealed */
  readonly forecast?: readonly ForecastAt[]
}
