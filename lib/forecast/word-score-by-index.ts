import {
  expectedScore,
  type TransferFunction,
  type TransferMaterial,
  transferFunctions,
} from '../speech/score-transfer.ts'
import { type Range, studentDeviate, z50, z80 } from './distribution.ts'
import { evidenceFrom } from './evidence.ts'
import { coversFour, type ExpectedEar, hullOf, indexAt, scaled } from './index-forecast.ts'
import { absent, combinedSd, type Prediction, sharesOf } from './prediction.ts'
import { speechConditions } from './speech-conditions.ts'

/** Words right, in percent, by way of the index: a basis beside the published half-right levels, never mixed with them. */
export interface WordScoreByIndex {
  readonly material: TransferMaterial
  readonly score: Prediction
}

const ordinarySpeech = speechConditions.find(({ id }) => id === 'quiet-65')

/**
 * Word score with the device at 65 dB SPL in quiet, from the index weighed for the material and its transfer function.
 * Group data of normal-hearing listeners: a cochlea that distorts scores lower at the same index, so the number is the
 * most that audibility allows.
 * @param items words of the list, whose binomial spread is joined to that of the ear
 * @param transfer a transfer function whose constants nobody has held against their source gives no number
 * @returns absent with the reason where constants are unconfirmed or one of four frequencies is missing
 * Source: that of the transfer function. Checked by: tests/unit/forecast/speech.test.ts
 */
export function wordScoreByIndex(
  ear: ExpectedEar,
  items: number,
  transfer: TransferFunction = transferFunctions.nu6,
): WordScoreByIndex {
  return { material: transfer.material, score: scoreOf(ear, items, transfer) }
}

function scoreOf(ear: ExpectedEar, items: number, transfer: TransferFunction): Prediction {
  if (transfer.status !== 'confirmed') return absent('transfer-not-confirmed')
  if (ordinarySpeech === undefined || !coversFour(ear.thresholds)) return absent('a-frequency-is-missing')
  const listening = { ...ordinarySpeech.listening, material: transfer.material }
  const at = (movedDb: number) => indexAt('aided-index', ear, listening, movedDb)
  const scoreAt = (movedDb: number) => 100 * expectedScore(transfer.material, at(movedDb).index)
  const sd = combinedSd(ear.spread)
  const deviate = (z: number) => (ear.degreesOfFreedom === undefined ? z : studentDeviate(z, ear.degreesOfFreedom))
  const middle = at(0)
  const score = scoreAt(0)
  const list = 100 * Math.sqrt(((score / 100) * (1 - score / 100)) / items)
  const within = (z: number): Range => ({
    low: Math.max(0, score - Math.hypot(score - scoreAt(deviate(z) * sd), z * list)),
    high: Math.min(100, score + Math.hypot(scoreAt(-deviate(z) * sd) - score, z * list)),
  })
  const perDb = sd === 0 ? 0 : (scoreAt(-z80 * sd) - scoreAt(z80 * sd)) / (2 * z80 * sd)
  const basis = {
    formula: 'word-score-by-index' as const,
    inputs: [
      { name: 'index', unit: 'index', value: middle.index },
      { name: 'list-length', unit: 'items', value: items },
    ] as const,
    sources: [evidenceFrom(`transfer-${transfer.material}`, transfer), ...ear.sources],
    shares: sharesOf({ ...scaled(ear.spread, perDb), 'list-length': list }),
    remarks: ['audibility-alone'] as const,
  }
  if (middle.bound === 'upper-bound') return { kind: 'at-most', value: score, basis }
  const interval50 = within(z50)
  return { kind: 'estimate', value: score, interval50, interval: hullOf(within(z80), interval50), basis }
}
