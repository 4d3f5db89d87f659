import type { FrequencyHz } from '../units/frequencies.ts'
import { asDbGain, type DbGain } from '../units/levels.ts'
import { type AverageId, type AverageResult, pureToneAverage } from './averages.ts'
import { boundsOf } from './bounds.ts'
import { requireDbHl } from './domain.ts'
import type { Audiogram } from './thresholds.ts'

export type SpeechToneGrade = 'good' | 'fair' | 'poor'

/** Which average the threshold is held against: of three tones, or the best two of them where neighbours differ. */
export type SpeechToneAverage = Extract<AverageId, 'pta3' | 'fletcher2'>

export interface SpeechToneAgreement {
  readonly by: SpeechToneAverage
  /** 0.5/1/2 kHz, or the best two of them where neighbours differ by more than 20 dB. */
  readonly average: AverageResult
  /** Speech reception threshold minus average, in dB; negative: speech is heard better than the tones. */
  readonly difference?: DbGain
  readonly agreement?: SpeechToneGrade
  /** The plain rule of the clinic: no further apart than 10 dB. */
  readonly withinTenDb?: boolean
}

/**
 * Agreement of the speech reception threshold of one ear with its pure-tone average.
 * @param speechReceptionThreshold dB HL, -20 to 130
 * @returns no difference when the average is missing or only a lower bound
 * @throws RangeError when the threshold or the audiogram is out of domain
 * Source: ASHA 1988 (within 10 dB confirmed; 6 and 13 dB from memory, unconfirmed).
 * Checked by: tests/published/speech-tone-agreement.test.ts
 */
export function speechToneAgreement(air: Audiogram, speechReceptionThreshold: number): SpeechToneAgreement {
  const speech = requireDbHl('speechReceptionThreshold', speechReceptionThreshold)
  const by = isSteep(air) ? 'fletcher2' : 'pta3'
  const average = pureToneAverage(air, by)
  if (average.value === undefined || average.censored) return { by, average }
  const difference = speech - average.value
  const size = Math.abs(difference)
  return { by, average, difference: asDbGain(difference), agreement: gradeOf(size), withinTenDb: size <= 10 }
}

function gradeOf(size: number): SpeechToneGrade {
  if (size <= 6) return 'good'
  return size < 13 ? 'fair' : 'poor'
}

function isSteep(air: Audiogram): boolean {
  return differsBy20(air, 500, 1000) || differsBy20(air, 1000, 2000)
}

function differsBy20(air: Audiogram, below: FrequencyHz, above: FrequencyHz): boolean {
  const a = boundsOf(air.get(below))
  const b = boundsOf(air.get(above))
  return a !== undefined && b !== undefined && Math.abs(a.low - b.low) > 20
}
