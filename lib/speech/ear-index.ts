import { requireAudiogram, requireWithin } from '../audiometry/domain.ts'
import type { Provenance } from '../audiometry/provenance.ts'
import type { Audiogram } from '../audiometry/thresholds.ts'
import { bandThresholds, interpolateToBands, type Point, testedPoints } from './audiogram-bands.ts'
import type { SpeechMaterial } from './importance.ts'
import { type BandInputs, type IndexResult, maskingOf, speechIntelligibilityIndex } from './intelligibility-index.ts'
import { type Procedure, type ProcedureId, procedures, type VocalEffort } from './procedures.ts'
import { requireSpectrum, speechAtDistance, speechAtLevel } from './speech-spectrum.ts'

/** What is said, and how loud it is at the listener's place (free field, listener absent). */
export type SpeechSource =
  /** A level in dB SPL, e.g. 65 for recorded words from a loudspeaker; the shape is that of the vocal effort. */
  | { readonly kind: 'level'; readonly overallDbSpl: number; readonly effort: VocalEffort }
  /** A talker at a distance in metres. */
  | { readonly kind: 'talker'; readonly effort: VocalEffort; readonly distanceM: number }
  /** Spectrum levels per band of the procedure, dB. */
  | { readonly kind: 'spectrum'; readonly spectrumDb: readonly number[] }

export type NoiseSource =
  | { readonly kind: 'quiet' }
  /** Noise with the long-term spectrum of normal-effort speech, overall level in dB SPL. */
  | { readonly kind: 'speech-shaped'; readonly overallDbSpl: number }
  | { readonly kind: 'spectrum'; readonly spectrumDb: readonly number[] }

export interface ListeningCondition {
  readonly procedure: ProcedureId
  readonly material: SpeechMaterial
  readonly speech: SpeechSource
  readonly noise: NoiseSource
  /** Two equal ears lower the equivalent threshold by 1.7 dB. */
  readonly listening: 'monaural' | 'binaural'
}

/** Recorded words at 65 dB SPL from the front, in quiet, one ear: the usual outcome condition. */
export const wordsAt65InQuiet: ListeningCondition = {
  procedure: 'one-third-octave',
  material: 'average-speech',
  speech: { kind: 'level', overallDbSpl: 65, effort: 'normal' },
  noise: { kind: 'quiet' },
  listening: 'monaural',
}

/** How a threshold entered the index; shown under "how computed". */
export interface ThresholdTreatment extends Provenance {
  readonly id: 'unaided-air-conduction' | 'aided-sound-field'
}

export const thresholdTreatments: { readonly [Id in ThresholdTreatment['id']]: ThresholdTreatment } = {
  'unaided-air-conduction': {
    id: 'unaided-air-conduction',
    source: 'ANSI S3.5-1997, section 4 with T the whole air-conduction threshold, and Annex A with J the air-bone gap',
    status: 'confirmed',
  },
  'aided-sound-field': {
    id: 'aided-sound-field',
    source:
      'ANSI S3.5-1997, insertion gain taken as unaided minus aided threshold, which moves the whole gain into T and leaves J = aided minus bone conduction',
    status: 'common practice, no source',
    reservation:
      'holds for linear gain: compression, maximum output and device noise are not seen by a threshold, and masking spreads as at field levels',
  },
}

export interface EarIndex extends IndexResult {
  readonly condition: ListeningCondition
  readonly treatment: ThresholdTreatment
  /** Upper bound when "no response" takes part: the true thresholds are worse. */
  readonly bound: 'exact' | 'upper-bound'
  /** Bands whose threshold leans on "no response". */
  readonly beyondLimitHz: readonly number[]
  /** Bands outside the tested range, where the nearest tested threshold is held. */
  readonly heldHz: readonly number[]
  /** Without any frequency tested by both routes the whole loss counts as sensorineural (J = 0). */
  readonly conductivePart: 'from-bone-conduction' | 'not-known'
}

/**
 * Speech intelligibility index of an ear without a device, from its audiogram.
 *
 * T is the whole air-conduction threshold and J the air-bone gap (never below 0), interpolated from the frequencies
 * tested by both routes. J only spares the level-distortion factor: it matters for loud speech, and there a larger gap
 * over the same bone conduction may raise L while it lowers audibility.
 * @param ear thresholds in dB HL; `air` may be an earphone or a sound-field audiogram; `bone` may be absent or empty
 * @throws RangeError when `air` has no tested frequency or a value is out of its domain
 * Source: `thresholdTreatments`. Checked by: tests/published/ansi-s3-5-audiograms.test.ts
 */
export function unaidedIndex(
  ear: { readonly air: Audiogram; readonly bone?: Audiogram },
  condition: ListeningCondition,
): EarIndex {
  const gaps = differences(ear.air, ear.bone).map(({ frequencyHz, value }) => ({
    frequencyHz,
    value: Math.max(0, value),
  }))
  return earIndex(ear.air, gaps, condition, thresholdTreatments['unaided-air-conduction'])
}

/**
 * Speech intelligibility index of an ear with a device, from its aided sound-field thresholds.
 *
 * The aided threshold is put in the place of T and the speech stays at its field level. For linear gain G this gives in
 * quiet the audibility that the standard gives by adding G to the speech: E + G - (X + T) = E - (X + (T - G)). The
 * level-distortion factor needs the level at the cochlea, which formula A1 then has at E + G - gap, that is E + bone
 * conduction - aided threshold; so J is the aided residual gap (aided minus bone conduction), negative where the device
 * amplifies beyond bone conduction. Without bone conduction J is 0: the field level itself counts.
 *
 * Not seen by an aided threshold, and so not in the index: compression (at 65 dB SPL the gain is then smaller than at
 * threshold), maximum output, device noise, and the spread of masking at amplified levels.
 * @param ear aided sound-field thresholds (dB HL re ISO 389-7) and, if known, bone conduction of the same ear
 * @throws RangeError when `aided` has no tested frequency or a value is out of its domain
 * Source: `thresholdTreatments`. Checked by: tests/unit/speech/ear-index.test.ts
 */
export function aidedIndex(
  ear: { readonly aided: Audiogram; readonly bone?: Audiogram },
  condition: ListeningCondition,
): EarIndex {
  return earIndex(ear.aided, differences(ear.aided, ear.bone), condition, thresholdTreatments['aided-sound-field'])
}

const binauralAdvantageDb = 1.7

function earIndex(
  thresholds: Audiogram,
  conductive: readonly Point[],
  condition: ListeningCondition,
  treatment: ThresholdTreatment,
): EarIndex {
  const procedure = procedures[condition.procedure]
  const bands = bandThresholds(thresholds, procedure.bandsHz)
  const advantageDb = condition.listening === 'binaural' ? binauralAdvantageDb : 0
  const inputs = {
    ...soundOf(condition),
    thresholdDbHl: bands.map((band) => band.levelDbHl - advantageDb),
    ...(conductive.length === 0 ? {} : { conductiveDb: interpolateToBands(conductive, procedure.bandsHz) }),
  }
  const beyondLimitHz = bands.filter((band) => band.lowerBound).map((band) => band.frequencyHz)
  return {
    ...speechIntelligibilityIndex(procedure, inputs, condition.material),
    condition,
    treatment,
    bound: beyondLimitHz.length === 0 ? 'exact' : 'upper-bound',
    beyondLimitHz,
    heldHz: bands.filter((band) => band.held).map((band) => band.frequencyHz),
    conductivePart: conductive.length === 0 ? 'not-known' : 'from-bone-conduction',
  }
}

type Sound = Pick<BandInputs, 'speechDb' | 'noiseDb' | 'maskingDb'>

/** Conditions never change; an interval asks for many ears under one, and its masking costs more than all the rest. */
const sounds = new WeakMap<ListeningCondition, Sound>()

function soundOf(condition: ListeningCondition): Sound {
  const known = sounds.get(condition)
  if (known !== undefined) return known
  const procedure = procedures[condition.procedure]
  const speechDb = speechSpectrum(procedure, condition.speech)
  const noise = noiseInput(procedure, condition.noise)
  const sound = { speechDb, ...noise, maskingDb: maskingOf(procedure, speechDb, noise.noiseDb) }
  sounds.set(condition, sound)
  return sound
}

/** Threshold minus bone conduction where both routes were tested; "no response" stands at its limit. */
function differences(thresholds: Audiogram, bone: Audiogram | undefined): readonly Point[] {
  if (bone === undefined) return []
  const boneAt = new Map(testedPoints(requireAudiogram('bone', bone)).map((point) => [point.frequencyHz, point.value]))
  return testedPoints(thresholds).flatMap(({ frequencyHz, value }) => {
    const level = boneAt.get(frequencyHz)
    return level === undefined ? [] : [{ frequencyHz, value: value - level }]
  })
}

function speechSpectrum(procedure: Procedure, speech: SpeechSource): readonly number[] {
  switch (speech.kind) {
    case 'level':
      return speechAtLevel(procedure, speech.overallDbSpl, speech.effort)
    case 'talker':
      return speechAtDistance(procedure, speech.effort, speech.distanceM)
    case 'spectrum':
      requireSpectrum('speech.spectrumDb', procedure, speech.spectrumDb)
      return speech.spectrumDb
    default:
      return speech satisfies never
  }
}

function noiseInput(procedure: Procedure, noise: NoiseSource): { readonly noiseDb?: readonly number[] } {
  switch (noise.kind) {
    case 'quiet':
      return {}
    case 'speech-shaped':
      requireWithin('noise.overallDbSpl', noise.overallDbSpl, 0, 120, 'dB SPL')
      return { noiseDb: speechAtLevel(procedure, noise.overallDbSpl, 'normal') }
    case 'spectrum':
      requireSpectrum('noise.spectrumDb', procedure, noise.spectrumDb)
      return { noiseDb: noise.spectrumDb }
    default:
      return noise satisfies never
  }
}
