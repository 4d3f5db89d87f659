import type { Audiogram, Threshold } from '../audiometry/thresholds.ts'
import type { FrequencyHz } from '../units/frequencies.ts'
import type { EvidenceSource } from './evidence.ts'

/** Confidence of every interval of a forecast, in percent. */
export const intervalConfidence = 80

/** Standard normal quantile of 0.9: half-width of a two-sided 80 % interval in standard deviations. */
export const z80 = 1.2815515655446004

export interface Range {
  readonly low: number
  readonly high: number
}

/** How a number was computed; the sentence belongs to the screen. */
export type FormulaId =
  | 'aided-threshold'
  | 'effective-gain'
  | 'residual-gap'
  | 'functional-gain'
  | 'headroom'
  | 'mean-of-four'
  | 'word-score'

export type InputName =
  | 'bone-threshold'
  | 'bone-mean'
  | 'unaided-sound-field'
  | 'unaided-air'
  | 'published-gain'
  | 'loss'
  | 'mean-loss'
  | 'maximum-output'
  | 'half-right-at'
  | 'slope'
  | 'best-unaided-score'
  | 'list-length'
  | 'aided-thresholds'
  | 'effective-gains'
  | 'residual-gaps'
  | 'functional-gains'
  | 'spread-of-mean'

export type Unit = 'dB HL' | 'dB' | '%' | '%/dB' | 'items'

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

export type Cause = 'between-patients' | 'bone-test' | 'unaided-test' | 'scenario' | 'list-length' | 'slope'

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
  | 'undetermined'

/**
 * What can be said of one quantity. An `estimate` has its 80 % interval; a bound says that the true value is at least
 * or at most `value` and has no interval, because one side of it was never measured.
 */
export type Prediction =
  | {
      readonly kind: 'estimate'
      readonly value: number
      readonly interval: Range
      readonly basis: Basis
    }
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

export const intervalAround = (value: number, sd: number): Range => ({ low: value - z80 * sd, high: value + z80 * sd })

const clamp = (value: number, { low, high }: Range): number => Math.min(high, Math.max(low, value))

export const clampedRange = (range: Range, limits: Range): Range => ({
  low: clamp(range.low, limits),
  high: clamp(range.high, limits),
})

export const clampedEstimate = (value: number, sd: number, limits: Range, basis: Basis): Prediction => ({
  kind: 'estimate',
  value: clamp(value, limits),
  interval: clampedRange(intervalAround(value, sd), limits),
  basis,
})

export type Tested = Exclude<Threshold, { kind: 'could-not-test' }>

/** The threshold there, if the frequency was tested and a response or the lack of one was noted. */
export function testedAt(audiogram: Audiogram | undefined, frequency: FrequencyHz): Tested | undefined {
  const threshold = audiogram?.get(frequency)
  return threshold === undefined || threshold.kind === 'could-not-test' ? undefined : threshold
}

export const levelOf = (threshold: Tested): number => (threshold.kind === 'heard' ? threshold.level : threshold.limit)
