import { outsideDomain, requireWithin } from '../audiometry/domain.ts'
import { asDbSpl, type DbSpl } from '../units/levels.ts'
import { oneThirdOctave, type Procedure, type VocalEffort } from './procedures.ts'

/** Levels that a loudspeaker or a talker can give at the listener's place, dB SPL. Range: common practice, no source. */
export const overallLevelRangeDbSpl = { low: 0, high: 120 } as const

/** Spectrum levels accepted by this folder, dB per Hz. Range: common practice, no source. */
export const spectrumLevelRangeDb = { low: -100, high: 140 } as const

/**
 * Overall level of a sound from its spectrum levels: the energy sum of the band levels, in dB SPL.
 * @param spectrumDb spectrum level of each band of `procedure`, dB re 20 µPa per Hz
 * @throws RangeError when there is not one level a band, or a level is outside -100 to 140 dB
 * Source: ANSI S3.5-1997, definitions of band and spectrum level. Checked by: tests/published/ansi-s3-5-1997.test.ts
 */
export function overallLevel(procedure: Procedure, spectrumDb: readonly number[]): DbSpl {
  requireSpectrum('spectrumDb', procedure, spectrumDb)
  const energy = procedure.bandwidthDb.reduce(
    (sum, width, band) => sum + 10 ** ((at(spectrumDb, band) + width) / 10),
    0,
  )
  return asDbSpl(10 * Math.log10(energy))
}

const standardLevel = (effort: VocalEffort): DbSpl =>
  overallLevel(oneThirdOctave, oneThirdOctave.speechSpectrumDb[effort])

/** Overall level of each standard spectrum at 1 m, as the sum of its bands. */
const standardLevelDbSpl: { readonly [Effort in VocalEffort]: DbSpl } = {
  normal: standardLevel('normal'),
  raised: standardLevel('raised'),
  loud: standardLevel('loud'),
  shout: standardLevel('shout'),
}

/**
 * Spectrum levels of speech of a given overall level, by moving the standard spectrum of a vocal effort as a whole.
 *
 * The move is counted from the sum of the one-third-octave bands, also for the octave procedure, so that both
 * procedures describe the same sound (the printed totals differ from that sum by up to 0.06 dB).
 * @param overallDbSpl level at the listener's place, 0 to 120 dB SPL
 * @param effort whose spectrum gives the shape; `normal` for recorded word lists
 * @returns one spectrum level a band, dB re 20 µPa per Hz
 * @throws RangeError naming the argument, its value and its domain
 * Source: ANSI S3.5-1997, Tables 3 and 4. Checked by: tests/published/ansi-s3-5-1997.test.ts
 */
export function speechAtLevel(procedure: Procedure, overallDbSpl: number, effort: VocalEffort): readonly number[] {
  const { low, high } = overallLevelRangeDbSpl
  requireWithin('overallDbSpl', overallDbSpl, low, high, 'dB SPL')
  const move = overallDbSpl - standardLevelDbSpl[effort]
  return procedure.speechSpectrumDb[effort].map((level) => level + move)
}

/**
 * Spectrum levels of a talker at a distance, in a free field without reflections: the 1 m spectrum less 20 log10 d.
 * @param distanceM metres from the talker's lips, 0.1 to 100
 * @returns one spectrum level a band, dB re 20 µPa per Hz
 * @throws RangeError naming the argument, its value and its domain
 * Source: ANSI S3.5-1997, 5.1 (the 1 m spectra) with the inverse square law. Checked by: tests/unit/speech/speech-spectrum.test.ts
 */
export function speechAtDistance(procedure: Procedure, effort: VocalEffort, distanceM: number): readonly number[] {
  requireWithin('distanceM', distanceM, 0.1, 100, 'm')
  return procedure.speechSpectrumDb[effort].map((level) => level - 20 * Math.log10(distanceM))
}

/** @throws RangeError unless there is one level a band, each from -100 to 140 dB */
export function requireSpectrum(argument: string, procedure: Procedure, levels: readonly number[]): void {
  requireOnePerBand(argument, procedure, levels, { ...spectrumLevelRangeDb, unit: 'dB' })
}

export interface BandDomain {
  readonly low: number
  readonly high: number
  readonly unit: string
}

/** @throws RangeError unless there is one value a band of the procedure, each within the domain */
export function requireOnePerBand(
  argument: string,
  procedure: Procedure,
  values: readonly number[],
  { low, high, unit }: BandDomain,
): void {
  const bands = procedure.bandsHz.length
  if (values.length !== bands) {
    throw outsideDomain(
      `the length of ${argument}`,
      values.length,
      `${bands}, one value a band of the ${procedure.id} procedure`,
    )
  }
  const outside = values.findIndex((value) => !(value >= low && value <= high))
  if (outside >= 0) requireWithin(`${argument}[${outside}]`, at(values, outside), low, high, unit)
}

/** The value of a band, for lists that have been checked to hold one a band. */
export function at(values: readonly number[], band: number): number {
  const value = values[band]
  if (value === undefined) throw outsideDomain('band', band, `less than ${values.length}`)
  return value
}
