import { type ProportionInterval, wilsonInterval } from '../speech/binomial-interval.ts'
import type { ProbabilityTransform } from './crps.ts'
import type { Scored } from './scoring.ts'

/** Whether the forecasts of a series keep what they promise. */
export interface Calibration {
  /** results that were scored */
  readonly n: number
  /** share inside the 50 and the 80 % interval, with its Wilson limits at 95 % */
  readonly inside50: ProportionInterval
  readonly inside80: ProportionInterval
  /** mean of measured minus forecast: how far the forecasts lie off on the whole */
  readonly meanError: number
  /** mean continuous ranked probability score of those results that have one */
  readonly meanRankedProbability: number | undefined
  /** in the order of the results; spread evenly between 0 and 1 when the forecasts are calibrated */
  readonly transforms: readonly ProbabilityTransform[]
}

/**
 * Calibration over a series of scored results.
 * @param scores one result a patient, such as the mean of four frequencies: frequencies of one ear, and ears of one
 * patient, are not independent, and the limits of the shares would be too narrow
 * @returns undefined when nothing was scored
 * Source: Gneiting, Balabdaoui and Raftery, J R Stat Soc B 69:243-268, 2007 (calibration); limits: Wilson 1927.
 * Checked by: tests/unit/forecast/calibration.test.ts
 */
export function calibrationOf(scores: readonly Scored[]): Calibration | undefined {
  const n = scores.length
  if (n === 0) return undefined
  const ranked = scores.flatMap(({ rankedProbability }) => rankedProbability ?? [])
  return {
    n,
    inside50: wilsonInterval({ correct: scores.filter(({ inside50 }) => inside50).length, presented: n }),
    inside80: wilsonInterval({ correct: scores.filter(({ inside80 }) => inside80).length, presented: n }),
    meanError: meanOf(scores.map(({ error }) => error)),
    meanRankedProbability: ranked.length === 0 ? undefined : meanOf(ranked),
    transforms: scores.flatMap(({ transform }) => transform ?? []),
  }
}

const meanOf = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length
