import type { FrequencyHz } from '../units/frequencies.ts'
import type { Basis, Prediction, Range } from './prediction.ts'
import { absent, clampedEstimate } from './prediction.ts'

/** Frequencies of every four-frequency mean of a forecast, Hz: the set of the World Report on Hearing, 2021. */
export const fourFrequenciesHz = [500, 1000, 2000, 4000] as const satisfies readonly FrequencyHz[]

type Known = Exclude<Prediction, { kind: 'absent' }>

/**
 * Mean of the predictions at the four frequencies. A bound among them makes the mean a bound; bounds of both kinds
 * determine nothing.
 * @param sd standard deviation of the mean, dB: not that of independent frequencies, because an ear that couples
 * badly does so at all of them
 * @param limits the value and its interval stay inside
 */
export function meanOfFour(parts: readonly Prediction[], sd: number, limits: Range, basis: Basis): Prediction {
  const known = parts.filter((part): part is Known => part.kind !== 'absent')
  if (known.length !== fourFrequenciesHz.length) return absent('a-frequency-is-missing')
  const value = known.reduce((sum, part) => sum + part.value, 0) / known.length
  const kinds = new Set(known.map((part) => part.kind))
  if (kinds.has('at-least') && kinds.has('at-most')) return absent('undetermined')
  if (kinds.has('at-least')) return { kind: 'at-least', value, basis }
  if (kinds.has('at-most')) return { kind: 'at-most', value, basis }
  return clampedEstimate(value, sd, limits, basis)
}
