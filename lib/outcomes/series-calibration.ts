import { calibrationOf } from '../forecast/calibration.ts'
import { rankedProbabilityScore } from '../forecast/crps.ts'
import { pairedDifference } from './mean-interval.ts'
import { fewestEars, type SeriesMean, seriesMean } from './series-mean.ts'
import type { EarResult } from './series-result.ts'

interface Coverage {
  readonly share: number
  /** Wilson limits at 95 % */
  readonly low: number
  readonly high: number
}

export interface SeriesCalibration {
  /** sealed forecasts with a measured result */
  readonly n: number
  /** ears without a sealed forecast of what was done */
  readonly notSealed: number
  /** sealed, without a result that is a number */
  readonly notScored: number
  readonly inside50: Coverage | null
  readonly inside80: Coverage | null
  /** measured less forecast, dB; positive is worse than forecast */
  readonly bias: SeriesMean
  /** results in each tenth of what the forecasts gave; even when they are calibrated */
  readonly tenths: readonly number[]
  readonly score: {
    readonly n: number
    /** mean ranked probability score, dB; smaller is better */
    readonly forecast: number
    /** of the series without a model: mean and spread of all other results */
    readonly baseline: number
    /** baseline less forecast, with its 95 % interval: positive, and the forecasts are worth something */
    readonly gain: { readonly value: number; readonly low: number; readonly high: number }
  } | null
}

/**
 * Whether sealed forecasts of the aided threshold (mean of 0.5, 1, 2 and 4 kHz) keep what they promise.
 * Source: Gneiting, Balabdaoui and Raftery, J R Stat Soc B 69:243-268, 2007. Checked by:
 * tests/published/scipy-1-17-series.test.ts (baseline), tests/unit/forecast/calibration.test.ts
 */
export function seriesCalibration(results: readonly EarResult[]): SeriesCalibration {
  const sealed = results.filter(({ case: { forecast } }) => forecast !== undefined)
  const scores = sealed.flatMap(({ score }) => score ?? [])
  const known = calibrationOf(scores)
  const isEnough = scores.length >= fewestEars
  return {
    n: scores.length,
    notSealed: results.length - sealed.length,
    notScored: sealed.length - scores.length,
    inside50: known && isEnough ? coverageOf(known.inside50) : null,
    inside80: known && isEnough ? coverageOf(known.inside80) : null,
    bias: seriesMean(scores.map(({ error }) => error)),
    tenths: tenthsOf(scores.flatMap(({ transform }) => transform ?? [])),
    score: scoreAgainstBaseline(scores),
  }
}

const coverageOf = ({ proportion, low, high }: { proportion: number; low: number; high: number }): Coverage => ({
  share: proportion,
  low,
  high,
})

/** A result on a limit of its forecast stands in the middle of the step that the forecast has there. */
function tenthsOf(transforms: readonly { readonly low: number; readonly high: number }[]): readonly number[] {
  const tenths = Array.from({ length: 10 }, () => 0)
  for (const { low, high } of transforms) {
    const index = Math.min(9, Math.floor(5 * (low + high)))
    tenths[index] = (tenths[index] ?? 0) + 1
  }
  return tenths
}

function scoreAgainstBaseline(
  scores: readonly { readonly measured: number; readonly rankedProbability?: number }[],
): SeriesCalibration['score'] {
  const ranked = scores.filter(({ rankedProbability }) => rankedProbability !== undefined)
  if (ranked.length < fewestEars) return null
  const baseline = leaveOneOutScores(ranked.map(({ measured }) => measured))
  if (baseline === undefined) return null
  const forecast = ranked.map(({ rankedProbability = 0 }) => rankedProbability)
  const { value, low, high } = pairedDifference(baseline, forecast)
  return { n: ranked.length, forecast: meanOf(forecast), baseline: meanOf(baseline), gain: { value, low, high } }
}

const meanOf = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length

/**
 * Ranked probability score of each result under what the others alone would have let expect: Student t with n - 2 degrees
 * of freedom about their mean, its scale that of a further value. Mean and squares of the others follow from those of all,
 * and equal results have equal scores: a mean of four thresholds in steps of 5 dB takes few values.
 * @param results at least four finite numbers
 * @returns undefined where the others are all alike, so that nothing could be expected but themselves
 */
export function leaveOneOutScores(results: readonly number[]): readonly number[] | undefined {
  const n = results.length
  const centre = meanOf(results)
  const squares = results.reduce((sum, value) => sum + (value - centre) ** 2, 0)
  const scores = new Map<number, number>()
  for (const result of results) {
    if (scores.has(result)) continue
    const off = result - centre
    // Squares about the mean of the others: what is left when one value is taken out.
    const left = squares - (off ** 2 * n) / (n - 1)
    if (left < 1e-9) return undefined
    const scale = Math.sqrt(left / (n - 2)) * Math.sqrt(1 + 1 / (n - 1))
    const others = { centre: centre - off / (n - 1), scale, degreesOfFreedom: n - 2, limits: unlimited }
    scores.set(result, rankedProbabilityScore(others, result))
  }
  return results.flatMap((result) => scores.get(result) ?? [])
}

const unlimited = { low: Number.NEGATIVE_INFINITY, high: Number.POSITIVE_INFINITY }
