import { requireAudiogram } from '../audiometry/domain.ts'
import type { Audiogram, Threshold } from '../audiometry/thresholds.ts'
import { requireFinite } from '../speech/counts.ts'
import type { FrequencyHz } from '../units/frequencies.ts'
import { type ProbabilityTransform, probabilityTransform, rankedProbabilityScore } from './crps.ts'
import type { Distribution, Range } from './distribution.ts'
import { fourFrequenciesHz } from './mean-of-four.ts'

/** As much of a prediction as a score needs: one just made, or one that was sealed. */
export type Scorable =
  | {
      readonly kind: 'estimate'
      readonly value: number
      readonly interval50: Range
      readonly interval: Range
      readonly distribution?: Distribution | undefined
    }
  | { readonly kind: 'at-least' | 'at-most'; readonly value: number }
  | { readonly kind: 'absent' }

/** Why a result cannot be held against its forecast. */
export type ScoreAbsence =
  | 'not-measured'
  | 'could-not-test'
  /** the threshold is worse than the audiometer's limit: no number, and so no error */
  | 'no-response'
  | 'not-forecast'
  | 'forecast-is-a-bound'

/** A result against its forecast, in the unit of the number. */
export interface Scored {
  readonly kind: 'scored'
  readonly measured: number
  /** measured minus forecast; for a threshold positive is worse than forecast */
  readonly error: number
  readonly inside50: boolean
  readonly inside80: boolean
  /** continuous ranked probability score; absent where the forecast has intervals alone */
  readonly rankedProbability?: number
  readonly transform?: ProbabilityTransform
}

export type Score = Scored | { readonly kind: 'absent'; readonly reason: ScoreAbsence }

const noScore = (reason: ScoreAbsence): Score => ({ kind: 'absent', reason })

/**
 * A measured number against its forecast.
 * @throws RangeError when `measured` is not a finite number
 * Checked by: tests/unit/forecast/scoring.test.ts
 */
export function scoreNumber(forecast: Scorable, measured: number): Score {
  requireFinite('measured', measured)
  if (forecast.kind === 'absent') return noScore('not-forecast')
  if (forecast.kind !== 'estimate') return noScore('forecast-is-a-bound')
  const { value, interval, interval50, distribution } = forecast
  return {
    kind: 'scored',
    measured,
    error: measured - value,
    inside50: isInside(interval50, measured),
    inside80: isInside(interval, measured),
    ...(distribution === undefined ? {} : byDistribution(distribution, measured)),
  }
}

const byDistribution = (distribution: Distribution, measured: number) => ({
  rankedProbability: rankedProbabilityScore(distribution, measured),
  transform: probabilityTransform(distribution, measured),
})

const isInside = ({ low, high }: Range, value: number): boolean => value >= low && value <= high

export function scoreThreshold(forecast: Scorable, measured: Threshold | undefined): Score {
  if (measured === undefined) return noScore('not-measured')
  switch (measured.kind) {
    case 'heard':
      return scoreNumber(forecast, measured.level)
    case 'no-response':
    case 'could-not-test':
      return noScore(measured.kind)
    default:
      return measured satisfies never
  }
}

/** The expected aided thresholds of a forecast, sealed or not. */
export interface ScorableForecast {
  readonly byFrequency: readonly { readonly frequency: FrequencyHz; readonly aidedThreshold: Scorable }[]
  readonly fourTone: { readonly aidedThreshold: Scorable }
}

export interface ForecastScore {
  readonly byFrequency: readonly { readonly frequency: FrequencyHz; readonly score: Score }[]
  /** mean of 0.5, 1, 2 and 4 kHz: one result an ear, fit for a series */
  readonly fourTone: Score
}

/**
 * Aided thresholds of a visit against a forecast.
 * @param aided thresholds in the sound field with the device
 * @throws RangeError when a threshold is out of domain
 */
export function scoreForecast(forecast: ScorableForecast, aided: Audiogram): ForecastScore {
  requireAudiogram('aided', aided)
  return {
    byFrequency: forecast.byFrequency.map(({ frequency, aidedThreshold }) => ({
      frequency,
      score: scoreThreshold(aidedThreshold, aided.get(frequency)),
    })),
    fourTone: scoreOfMean(forecast.fourTone.aidedThreshold, aided),
  }
}

function scoreOfMean(forecast: Scorable, aided: Audiogram): Score {
  const four = fourFrequenciesHz.map((frequency) => aided.get(frequency))
  const levels = four.flatMap((threshold) => (threshold?.kind === 'heard' ? [threshold.level] : []))
  if (levels.length === four.length)
    return scoreNumber(forecast, levels.reduce((sum: number, level) => sum + level, 0) / four.length)
  const missing = four.find((threshold) => threshold?.kind !== 'heard')
  return scoreThreshold(forecast, missing)
}
