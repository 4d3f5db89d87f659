import { type ImportanceFunction, importanceFunction, type SpeechMaterial } from './importance.ts'
import type { Procedure } from './procedures.ts'
import { at, requireOnePerBand, requireSpectrum } from './speech-spectrum.ts'

/** What reaches the listener and what the ear can do, one value a band of the procedure. */
export interface BandInputs {
  /** Equivalent speech spectrum level E', dB re 20 µPa per Hz, -100 to 140. */
  readonly speechDb: readonly number[]
  /** Equivalent noise spectrum level N', same unit and range; -50 dB in every band when absent (4.2 of the standard). */
  readonly noiseDb?: readonly number[]
  /** Equivalent hearing threshold level T', dB HL, -30 to 140: the whole air-conduction loss. */
  readonly thresholdDbHl: readonly number[]
  /**
   * Part J of the threshold that is only attenuation before the cochlea, dB, -150 to 150; 0 when absent. It spares
   * the level-distortion factor (formula A1). Negative when a device gives the cochlea more than the field level.
   */
  readonly conductiveDb?: readonly number[]
  /** Masking Z of this speech and noise (`maskingOf`), dB, for who asks for many ears under one sound; else it is computed. */
  readonly maskingDb?: readonly number[]
}

/** One band of the result; the letters are those of the standard. */
export interface BandAudibility {
  readonly frequencyHz: number
  readonly importance: number
  readonly speechDb: number
  readonly thresholdDbHl: number
  /** Z: what noise, the speech itself and the spread of masking put into the band, dB. */
  readonly maskingDb: number
  /** X': the listener's own threshold as a noise, dB. */
  readonly internalNoiseDb: number
  /** D: the larger of the two. */
  readonly disturbanceDb: number
  /** L, 0 to 1: what is lost because the speech is too loud. */
  readonly levelDistortion: number
  /** K, 0 to 1: the part of the 30 dB range of speech that is above the disturbance. */
  readonly audibleProportion: number
  /** A = L K. */
  readonly audibility: number
  /** I A: what the band adds to the index. */
  readonly contribution: number
}

export interface IndexResult {
  /** The speech intelligibility index, 0 to 1: a proportion of usable speech information, not a score. */
  readonly index: number
  readonly procedure: Procedure
  readonly importance: ImportanceFunction
  readonly bands: readonly BandAudibility[]
}

const noNoiseDb = -50
const selfMaskingDb = 24
const speechPeaksDb = 15
const speechRangeDb = 30

/**
 * Speech intelligibility index of ANSI S3.5-1997 (R2017) by the one-third-octave or the octave procedure.
 *
 * Order of the steps and letters as in section 4 of the standard: masking Z with self-masking and upward spread (none
 * in the octave procedure), internal noise X' = X + T', disturbance D = max(Z, X') (a maximum, not an energy sum),
 * level distortion L by formula A1, which holds J of a conductive loss against the loud level, and K. The level of
 * reference in L is always the normal-effort spectrum, whatever the talker does.
 * @param procedure `oneThirdOctave` or `octave` of procedures.ts
 * @param inputs one value a band, units and ranges as in `BandInputs`
 * @param material whose importance function weighs the bands
 * @throws RangeError naming the argument, its value and its domain
 * Checked by: tests/published/ansi-s3-5-1997.test.ts
 */
export function speechIntelligibilityIndex(
  procedure: Procedure,
  inputs: BandInputs,
  material: SpeechMaterial = 'average-speech',
): IndexResult {
  const ear = checkedInputs(procedure, inputs)
  const importance = importanceFunction(procedure.id, material)
  const bands = procedure.bandsHz.map((_, band) => bandAudibility({ procedure, importance, ear, band }))
  const index = bands.reduce((sum, band) => sum + band.contribution, 0)
  return { index: clamp01(index), procedure, importance, bands }
}

/** Masking Z of a sound, one level a band of the procedure: the noise itself in the octave procedure (4.3.1). */
export function maskingOf(
  procedure: Procedure,
  speechDb: readonly number[],
  noiseDb: readonly number[] = noNoise(procedure),
): readonly number[] {
  return procedure.id === 'octave' ? noiseDb : spreadOfMasking(procedure.bandsHz, speechDb, noiseDb)
}

const noNoise = (procedure: Procedure): readonly number[] => procedure.bandsHz.map(() => noNoiseDb)

/**
 * Equivalent masking spectrum level Z of the one-third-octave procedure (4.3.2), dB: noise, and what lower bands of
 * noise or of the speech itself spread upward. `bandsHz`, `speechDb` and `noiseDb` have the same length.
 * Checked by: tests/published/ansi-s3-5-1997.test.ts
 */
export function spreadOfMasking(
  bandsHz: readonly number[],
  speechDb: readonly number[],
  noiseDb: readonly number[],
): readonly number[] {
  const maskers = bandsHz.map((frequency, band) => maskerOf(frequency, at(speechDb, band), at(noiseDb, band)))
  return maskers.map((masker, band) => {
    if (band === 0) return masker.level
    return 10 * Math.log10(10 ** (0.1 * at(noiseDb, band)) + spreadUpward(maskers, masker.frequency))
  })
}

interface Masker {
  readonly frequency: number
  /** B: noise, or the speech masking itself, dB. */
  readonly level: number
  /** C: fall of the masking towards higher frequencies, dB per octave. */
  readonly slope: number
}

function maskerOf(frequency: number, speechDb: number, noiseDb: number): Masker {
  const level = Math.max(noiseDb, speechDb - selfMaskingDb)
  return { frequency, level, slope: -80 + 0.6 * (level + 10 * Math.log10(frequency) - 6.353) }
}

/** Energy that the bands below `frequency` put into it; `maskers` rise in frequency. */
function spreadUpward(maskers: readonly Masker[], frequency: number): number {
  let energy = 0
  for (const lower of maskers) {
    if (lower.frequency >= frequency) return energy
    const reach = 3.32 * lower.slope * Math.log10((0.89 * frequency) / lower.frequency)
    energy += 10 ** (0.1 * (lower.level + reach))
  }
  return energy
}

type CheckedInputs = Required<BandInputs>

function checkedInputs(procedure: Procedure, inputs: BandInputs): CheckedInputs {
  const { speechDb, thresholdDbHl } = inputs
  const noiseDb = inputs.noiseDb ?? noNoise(procedure)
  const conductiveDb = inputs.conductiveDb ?? procedure.bandsHz.map(() => 0)
  requireSpectrum('speechDb', procedure, speechDb)
  requireSpectrum('noiseDb', procedure, noiseDb)
  requireOnePerBand('thresholdDbHl', procedure, thresholdDbHl, { low: -30, high: 140, unit: 'dB HL' })
  requireOnePerBand('conductiveDb', procedure, conductiveDb, { low: -150, high: 150, unit: 'dB' })
  const maskingDb = inputs.maskingDb ?? maskingOf(procedure, speechDb, noiseDb)
  requireOnePerBand('maskingDb', procedure, maskingDb, { low: -100, high: Number.POSITIVE_INFINITY, unit: 'dB' })
  return { speechDb, noiseDb, thresholdDbHl, conductiveDb, maskingDb }
}

interface BandContext {
  readonly procedure: Procedure
  readonly importance: ImportanceFunction
  readonly ear: CheckedInputs
  readonly band: number
}

function bandAudibility({ procedure, importance, ear, band }: BandContext): BandAudibility {
  const speechDb = at(ear.speechDb, band)
  const thresholdDbHl = at(ear.thresholdDbHl, band)
  const maskingDb = at(ear.maskingDb, band)
  const internalNoiseDb = at(procedure.internalNoiseDb, band) + thresholdDbHl
  const disturbanceDb = Math.max(maskingDb, internalNoiseDb)
  const aboveNormalDb = speechDb - at(procedure.speechSpectrumDb.normal, band)
  const levelDistortion = clamp01(1 - (aboveNormalDb - 10 - at(ear.conductiveDb, band)) / 160)
  const audibleProportion = clamp01((speechDb - disturbanceDb + speechPeaksDb) / speechRangeDb)
  const audibility = levelDistortion * audibleProportion
  return {
    frequencyHz: at(procedure.bandsHz, band),
    importance: at(importance.weights, band),
    speechDb,
    thresholdDbHl,
    maskingDb,
    internalNoiseDb,
    disturbanceDb,
    levelDistortion,
    audibleProportion,
    audibility,
    contribution: at(importance.weights, band) * audibility,
  }
}

const clamp01 = (value: number): number => Math.min(1, Math.max(0, value))
