import type { FrequencyHz } from '../units/frequencies.ts'
import type { Range } from './distribution.ts'
import { absent, type Basis, type LearnedSpread, learnedEstimate, type Prediction } from './prediction.ts'

/** Frequencies of every four-frequency mean of a forecast, Hz: the set of the World Report on Hearing, 2021. */
export const fourFrequenciesHz = [500, 1000, 2000, 4000] as const satisfies readonly FrequencyHz[]

type Known = Exclude<Prediction, { kind: 'absent' }>

/** The ear needs more there than the class can produce. */
export const isBeyondOutput = (part: Prediction): boolean =>
  part.kind === 'absent' && part.reason === 'beyond-maximum-output'

/**
 * Mean of the predictions at the four frequencies. A bound among them makes the mean a bound; bounds of both kinds
 * determine nothing.
 * @param of what makes the mean unsure, dB: not the spread of independent frequencies, because an ear that couples
 * badly does so at all of them
 * @param limits the value and its interval stay inside
 */
export function meanOfFour(parts: readonly Prediction[], of: LearnedSpread, limits: Range, basis: Basis): Prediction {
  const known = parts.filter((part): part is Known => part.kind !== 'absent')
  if (known.length !== fourFrequenciesHz.length)
    return absent(parts.some(isBeyondOutput) ? 'beyond-maximum-output' : 'a-frequency-is-missing')
  const value = known.reduce((sum, part) => sum + part.value, 0) / known.length
  const kinds = new Set(known.map((part) => part.kind))
  if (kinds.has('at-least') && kinds.has('at-most')) return absent('undetermined')
  if (kinds.has('at-least')) return { kind: 'at-least', value, basis }
  if (kinds.has('at-most')) return { kind: 'at-most', value, basis }
  return learnedEstimate({ centre: value, ...of, limits, basis })
}
