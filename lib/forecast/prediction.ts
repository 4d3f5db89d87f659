import type { Audiogram, Threshold } from '../audiometry/thresholds.ts'
import type { EvidenceSource } from '../devices/evidence-source.ts'
import type { FrequencyHz } from '../units/frequencies.ts'
import {
  clampedCentre,
  type Distribution,
  type Intervals,
  intervalsOf,
  pooledDegreesOfFreedom,
  type Range,
} from './distribution.ts'

/** How a number was computed; the sentence belongs to the screen. */
export type FormulaId =
  | 'aided-threshold'
  | 'effective-gain'
  | 'residual-gap'
  | 'functional-gain'
  | 'headroom'
  | 'mean-of-four'
  | 'word-score'
  | 'unaided-index'
  | 'aided-index'
  | 'word-score-by-index'
  | 'half-gain'
  | 'as-tested'

export type InputName =
  | 'bone-threshold'
  | 'bone-mean'
  | 'unaided-sound-field'
  | 'unaided-air'
  | 'published-gain'
  | 'series-gain'
  | 'other-ear-gain'
  | 'gain-beyond-published'
  | 'gain-beyond-group'
  | 'loss'
  | 'mean-loss'
  | 'maximum-output'
  | 'half-right-at'
  | 'slope'
  | 'best-unaided-score'
  | 'list-length'
  | 'aided-thresholds'
  | 'unaided-thresholds'
  | 'speech-level'
  | 'noise-level'
  | 'index'
  | 'effective-gains'
  | 'residual-gaps'
  | 'functional-gains'
  | 'spread-of-mean'

export type Unit = 'dB HL' | 'dB SPL' | 'dB' | '%' | '%/dB' | 'items' | 'index'

/** One number that went in. `censored`: it is the limit without response, so the true value is at least this. */
export interface BasisInput {
  readonly name: InputName
  readonly unit: Unit
  readonly value: number | Range
  readonly sd?: number
  readonly n?: number
  readonly frequency?: FrequencyHz
  readonly censored?: true
}

/**
 * What makes a number unsure. `model`: what a change in the ear takes from the drive differs between models of the same
 * ear; `scenario`: how large that change will be. The error of a single aided test has no cause of its own: the
 * published spread between patients was computed from single aided tests and holds it.
 */
export type Cause = 'between-patients' | 'bone-test' | 'unaided-test' | 'model' | 'scenario' | 'list-length' | 'slope'

/** How much of the variance a cause has: `part` of 1, and the standard deviation in the unit of the number. */
export interface Share {
  readonly cause: Cause
  readonly sd: number
  readonly part: number
}

export type Remark =
  | 'no-better-than-floor'
  | 'bone-no-response'
  | 'unaided-no-response'
  | 'air-for-sound-field'
  | 'unmasked-bone'
  | 'slope-assumed'
  | 'couplings-alike'
  | 'far-from-half'
  | 'not-capped'
  | 'capped'
  | 'list-length-assumed'
  | 'bands-held'
  | 'threshold-is-a-bound'
  | 'audibility-alone'
  | 'gap-not-known'
  | 'learned-from-series'
  | 'pooled-with-other-ear'
  | 'without-gap'
  | 'small-gap'

/** What a reader needs to check the number: formula, what went in, from where, and what makes it unsure. */
export interface Basis {
  readonly formula: FormulaId
  readonly inputs: readonly BasisInput[]
  readonly sources: readonly EvidenceSource[]
  readonly shares: readonly Share[]
  readonly remarks: readonly Remark[]
}

export type AbsenceReason =
  | 'no-evidence-at-frequency'
  | 'bone-not-tested'
  | 'bone-could-not-be-tested'
  | 'beyond-maximum-output'
  | 'no-unaided-threshold'
  | 'a-frequency-is-missing'
  | 'transfer-not-confirmed'
  | 'undetermined'

/**
 * A number with its 80 % (`interval`) and 50 % interval. `distribution` is what both were taken from; a number whose
 * intervals were moved along a curve has none.
 */
export interface EstimatePrediction extends Intervals {
  readonly kind: 'estimate'
  readonly value: number
  readonly distribution?: Distribution
  readonly basis: Basis
}

/**
 * What can be said of one quantity. An `estimate` has its intervals; a bound says that the true value is at least or at
 * most `value` and has no interval, because one side of it was never measured.
 */
export type Prediction =
  | EstimatePrediction
  | { readonly kind: 'at-least'; readonly value: number; readonly basis: Basis }
  | { readonly kind: 'at-most'; readonly value: number; readonly basis: Basis }
  | { readonly kind: 'absent'; readonly reason: AbsenceReason }

export const absent = (reason: AbsenceReason): Prediction => ({ kind: 'absent', reason })

/** Standard deviations of independent causes. */
export type Spread = Readonly<Partial<Record<Cause, number>>>

export const combinedSd = (spread: Spread): number => Math.hypot(...Object.values(spread))

export function sharesOf(spread: Spread): readonly Share[] {
  const total = combinedSd(spread)
  return (Object.entries(spread) as [Cause, number][])
    .filter(([, sd]) => sd > 0)
    .map(([cause, sd]) => ({ cause, sd, part: (sd / total) ** 2 }))
    .toSorted((a, b) => b.part - a.part)
}

export const estimateFrom = (distribution: Distribution, basis: Basis): EstimatePrediction => ({
  kind: 'estimate',
  value: clampedCentre(distribution),
  ...intervalsOf(distribution),
  distribution,
  basis,
})

export const clampedEstimate = (centre: number, scale: number, limits: Range, basis: Basis): EstimatePrediction =>
  estimateFrom({ centre, scale, limits }, basis)

/** What makes a number unsure; `between-patients` is the scale of Student t where the gain was learned from few ears. */
export interface LearnedSpread {
  readonly spread: Spread
  readonly degreesOfFreedom?: number | undefined
}

export interface LearnedEstimate extends LearnedSpread {
  readonly centre: number
  readonly limits: Range
  readonly basis: Basis
}

/** The other causes being normal, the sum has more degrees of freedom than its learned part. */
export function learnedEstimate({
  centre,
  spread,
  degreesOfFreedom,
  limits,
  basis,
}: LearnedEstimate): EstimatePrediction {
  const scale = combinedSd(spread)
  const part = { scale: spread['between-patients'] ?? 0, degreesOfFreedom }
  const pooled = pooledDegreesOfFreedom(scale, part)
  return estimateFrom({ centre, scale, limits, ...(pooled === undefined ? {} : { degreesOfFreedom: pooled }) }, basis)
}

export type Tested = Exclude<Threshold, { kind: 'could-not-test' }>

/** The threshold there, if the frequency was tested and a response or the lack of one was noted. */
export function testedAt(audiogram: Audiogram | undefined, frequency: FrequencyHz): Tested | undefined {
  const threshold = audiogram?.get(frequency)
  return threshold === undefined || threshold.kind === 'could-not-test' ? undefined : threshold
}

export const levelOf = (threshold: Tested): number => (threshold.kind === 'heard' ? threshold.level : threshold.limit)
