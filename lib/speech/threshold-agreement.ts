import { requireWithin } from '../audiometry/domain.ts'
import { asDbGain, type DbGain } from '../units/levels.ts'
import type { ScoreMethod } from './word-score.ts'

export const agreementRules = {
  simple: {
    id: 'srt-pta-within-10',
    source: 'ASHA, Guidelines for determining threshold level for speech, 1988; clinic rule of 10 dB',
    status: 'confirmed',
    reservation: 'the 10 dB rule was seen in a public teaching text, not in the guideline',
  },
  graded: {
    id: 'srt-pta-6-12',
    source: 'clinic grading: good to 6 dB, fair to less than 13 dB, poor from 13 dB',
    status: 'from memory, unconfirmed',
  },
} as const satisfies { readonly [name: string]: ScoreMethod }

export interface ThresholdAgreement {
  /** Speech reception threshold minus pure-tone average, dB; negative when speech is heard better than the tones. */
  readonly differenceDb: DbGain
  readonly grade: 'good' | 'fair' | 'poor'
  readonly withinTenDb: boolean
  /**
   * What a poor agreement points to. `speech-better`: the tone thresholds may be exaggerated, ask again.
   * `speech-poorer`: a steep slope, poor recognition, or a language or task difficulty.
   */
  readonly pointsTo?: 'speech-better' | 'speech-poorer'
  readonly rules: typeof agreementRules
}

/**
 * Agreement of the speech reception threshold with the pure-tone average.
 *
 * The average is the caller's choice: 0.5, 1 and 2 kHz, or the best two of them where neighbours differ by more than
 * 20 dB.
 * @param srtDbHl speech reception threshold, -20 to 130 dB HL; @param averageDbHl the average, same unit and range
 * @throws RangeError naming the argument, its value and its domain
 * Source: `agreementRules`. Checked by: tests/unit/speech/word-scores.test.ts
 */
export function thresholdAgreement(srtDbHl: number, averageDbHl: number): ThresholdAgreement {
  requireWithin('srtDbHl', srtDbHl, -20, 130, 'dB HL')
  requireWithin('averageDbHl', averageDbHl, -20, 130, 'dB HL')
  const difference = srtDbHl - averageDbHl
  const size = Math.abs(difference)
  const grade = size <= 6 ? 'good' : size < 13 ? 'fair' : 'poor'
  const pointsTo = difference < 0 ? 'speech-better' : 'speech-poorer'
  return {
    differenceDb: asDbGain(difference),
    grade,
    withinTenDb: size <= 10,
    ...(grade === 'poor' ? { pointsTo } : {}),
    rules: agreementRules,
  }
}
