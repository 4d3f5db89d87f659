import type { DeviceProfile, WordScoreAnchor } from '../devices/device-profile.ts'
import { sourceOf } from './device-profile.ts'
import { clampedRange, type Range, studentDeviate, z50, z80 } from './distribution.ts'
import type { GainBelief } from './gain-belief.ts'
import type { UnaidedWordScore } from './inputs.ts'
import type { LossModel } from './loss-model.ts'
import {
  absent,
  type Basis,
  combinedSd,
  type LearnedSpread,
  type Prediction,
  type Remark,
  type Spread,
  sharesOf,
} from './prediction.ts'
import {
  assumedListLength,
  couplingsAlikeUpToDbHl,
  farFromHalfDb,
  listAssumption,
  loudEnoughDb,
  slopeAssumption,
  speechZeroDbSpl,
  wordSlope,
  workingValues,
} from './working-values.ts'

/** Expected share of monosyllables right at 65 dB SPL in quiet with the device, in percent. */
export interface WordScoreForecast {
  readonly variant: WordScoreAnchor['variant']
  readonly score: Prediction
}

/** Mean of the loss over four frequencies, with the standard deviations of scenario and of model, dB. */
export interface MeanLoss {
  readonly lossDb: number
  readonly sdDb: number
  readonly modelSdDb: number
}

export interface WordScoreInputs {
  readonly profile: DeviceProfile
  readonly anchor: WordScoreAnchor
  readonly model: LossModel
  /** four-frequency mean of bone conduction; a lower bound when a frequency gave no response; absent when one is missing */
  readonly boneMean: { readonly valueDbHl: number; readonly censored: boolean } | undefined
  readonly meanLoss: MeanLoss
  /** what makes the mean aided threshold unsure */
  readonly ear: LearnedSpread
  /** of the mean gain: what it is beyond the published mean moves the ear along the curve */
  readonly belief: GainBelief | undefined
  /** four-frequency mean of air conduction, absent when one is missing */
  readonly airMeanDbHl: number | undefined
  readonly unaidedWords: readonly UnaidedWordScore[]
}

/**
 * Words right, in percent, on a logistic in the mean bone-conduction threshold.
 * @param boneDbHl four-frequency mean, dB HL, with any loss of drive added
 * @param halfAtDbHl mean bone-conduction threshold with half of the words right
 * @param slopePercentPerDb slope at half, percent per dB, positive
 */
export function logisticScore(boneDbHl: number, halfAtDbHl: number, slopePercentPerDb: number): number {
  return 100 / (1 + Math.exp(((4 * slopePercentPerDb) / 100) * (boneDbHl - halfAtDbHl)))
}

/**
 * Expected word score at 65 dB SPL. The intervals join as independent: the spread of the aided mean (between
 * patients, model and scenario, moved along the curve), the list (binomial) and the assumed slope (even between 3 and
 * 5 % per dB).
 * The curve is not carried farther than 20 dB to the better side of the half-right level: near its top nothing is
 * published, and a logistic would promise every word with no doubt.
 * The best unaided score of the ear caps value and interval, if a list was given loud enough to be the best.
 * Source: the anchor's. Checked by: tests/published/busch-2016.test.ts
 */
export function wordScore(inputs: WordScoreInputs): Prediction {
  const { boneMean, meanLoss } = inputs
  if (boneMean === undefined) return absent('a-frequency-is-missing')
  const cap = bestUnaidedScore(inputs)
  const list = listLengthOf(inputs)
  const wanted = boneMean.valueDbHl + meanLoss.lossDb - beyondPublishedDb(inputs)
  const at = Math.max(wanted, inputs.anchor.boneDbHlAtHalf - farFromHalfDb)
  const curve = curveAt(inputs.anchor, at, inputs.ear, list.items)
  const limits = { low: 0, high: cap ?? 100 }
  const basis = basisOf(inputs, boneMean, { spread: curve.spread, cap, list })
  const value = Math.min(curve.score, limits.high)
  if (boneMean.censored) return { kind: 'at-most', value, basis }
  const within = (z: number) => clampedRange(curve.intervalAt(z), limits)
  return { kind: 'estimate', value, interval50: within(z50), interval: within(z80), basis }
}

const beyondPublishedDb = ({ belief }: Pick<WordScoreInputs, 'belief'>): number =>
  belief === undefined ? 0 : belief.meanDb - belief.publishedDb

/** `ear`: what makes the mean of this ear unsure, dB; it moves the ear along the curve. */
function curveAt(anchor: WordScoreAnchor, boneDbHl: number, ear: LearnedSpread, items: number) {
  const scoreAt = (bone: number, slope: number) => logisticScore(bone, anchor.boneDbHlAtHalf, slope)
  const sdDb = combinedSd(ear.spread)
  const deviate = (z: number) => (ear.degreesOfFreedom === undefined ? z : studentDeviate(z, ear.degreesOfFreedom))
  const score = scoreAt(boneDbHl, wordSlope.used)
  const list = 100 * Math.sqrt(((score / 100) * (1 - score / 100)) / items)
  const ofSlope = Math.abs(scoreAt(boneDbHl, wordSlope.high) - scoreAt(boneDbHl, wordSlope.low)) / Math.sqrt(12)
  const movedBy = (z: number) => scoreAt(boneDbHl - deviate(z) * sdDb, wordSlope.used) - score
  const intervalAt = (z: number): Range => ({
    low: score - Math.hypot(movedBy(-z), z * list, z * ofSlope),
    high: score + Math.hypot(movedBy(z), z * list, z * ofSlope),
  })
  const perDb = (movedBy(z80) - movedBy(-z80)) / (2 * z80 * sdDb)
  const ofEar = Object.fromEntries(Object.entries(ear.spread).map(([cause, sd]) => [cause, sd * perDb]))
  return { score, spread: { ...ofEar, 'list-length': list, slope: ofSlope } satisfies Spread, intervalAt }
}

/** Best score in percent of the lists that were loud enough to find it; undefined when there is none. */
function bestUnaidedScore({ unaidedWords, airMeanDbHl }: WordScoreInputs): number | undefined {
  if (airMeanDbHl === undefined) return undefined
  const loud = unaidedWords.filter(({ levelDbSpl }) => levelDbSpl - speechZeroDbSpl - airMeanDbHl >= loudEnoughDb)
  const scores = loud.map(({ right, items }) => (100 * right) / items)
  return scores.length === 0 ? undefined : Math.max(...scores)
}

/** Words of the last unaided list of the ear, or those that are taken without one. */
export function listLengthOf({ unaidedWords }: Pick<WordScoreInputs, 'unaidedWords'>): {
  readonly items: number
  readonly assumed: boolean
} {
  const items = unaidedWords.at(-1)?.items
  return items === undefined ? { items: assumedListLength, assumed: true } : { items, assumed: false }
}

interface CurveFacts {
  readonly spread: Spread
  readonly cap: number | undefined
  readonly list: { readonly items: number; readonly assumed: boolean }
}

function basisOf(
  { profile, anchor, model, meanLoss, ear, belief }: WordScoreInputs,
  boneMean: NonNullable<WordScoreInputs['boneMean']>,
  { spread, cap, list }: CurveFacts,
): Basis {
  const remarks: Remark[] = [...(belief?.remarks ?? []), 'slope-assumed', cap === undefined ? 'not-capped' : 'capped']
  const beyondDb = beyondPublishedDb({ belief })
  if (anchor.variant !== 'only' && boneMean.valueDbHl <= couplingsAlikeUpToDbHl) remarks.push('couplings-alike')
  if (anchor.boneDbHlAtHalf - boneMean.valueDbHl - meanLoss.lossDb + beyondDb > farFromHalfDb)
    remarks.push('far-from-half')
  if (list.assumed) remarks.push('list-length-assumed')
  if (boneMean.censored) remarks.push('bone-no-response')
  return {
    formula: 'word-score',
    inputs: [
      {
        name: 'bone-mean',
        unit: 'dB HL',
        value: boneMean.valueDbHl,
        sd: ear.spread['between-patients'] ?? 0,
        ...(boneMean.censored ? { censored: true as const } : {}),
      },
      { name: 'mean-loss', unit: 'dB', value: meanLoss.lossDb, sd: meanLoss.sdDb },
      ...(beyondDb === 0 ? [] : [{ name: 'gain-beyond-published', unit: 'dB', value: beyondDb } as const]),
      { name: 'half-right-at', unit: 'dB HL', value: anchor.boneDbHlAtHalf, n: anchor.n },
      { name: 'slope', unit: '%/dB', value: { low: wordSlope.low, high: wordSlope.high } },
      ...(cap === undefined ? [] : [{ name: 'best-unaided-score', unit: '%', value: cap } as const]),
      { name: 'list-length', unit: 'items', value: list.items },
    ],
    sources: [
      sourceOf(profile, anchor.source),
      slopeAssumption,
      listAssumption,
      workingValues,
      ...(belief?.sources ?? []),
      model.source,
    ],
    shares: combinedSd(spread) > 0 ? sharesOf(spread) : [],
    remarks,
  }
}
