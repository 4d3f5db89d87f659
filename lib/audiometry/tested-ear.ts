import { type Ear, type FrequencyHz, otherEar } from '../units/frequencies.ts'
import { asDbHl, type DbHl } from '../units/levels.ts'
import { requireAudiogram, requireDbHl } from './domain.ts'
import type { BothEars } from './pairs.ts'
import type { Audiogram, Threshold, Transducer } from './thresholds.ts'

export type AirTransducer = Extract<Transducer, 'supra-aural' | 'circum-aural' | 'insert'>
export type BoneTransducer = Extract<Transducer, 'bone-mastoid' | 'bone-forehead'>

/** What one test without a device says of one ear. The masked threshold stands in `air` and `bone` where there is one. */
export interface TestedEar {
  readonly air: Audiogram
  readonly bone: Audiogram
  /** Thresholds found without masking at frequencies where a masked one has taken their place. */
  readonly airBeforeMasking?: Audiogram
  readonly boneBeforeMasking?: Audiogram
  /** Unknown earphones are treated as supra-aural, the ones with the least interaural attenuation. */
  readonly airTransducer?: AirTransducer
  readonly boneTransducer?: BoneTransducer
  /** Speech reception threshold in dB HL. */
  readonly speechReceptionThreshold?: DbHl
  /** Second measurement of the air-conduction threshold at 1 kHz. */
  readonly repeatAt1000?: DbHl
  /** Step of the audiometer in dB; 5 unless declared. */
  readonly levelStep?: 1 | 2 | 5
}

export type TestedEars = BothEars<TestedEar>

/** @throws RangeError naming what is out of domain in either ear */
export function requireTestedEars(ears: TestedEars): TestedEars {
  for (const ear of ['right', 'left'] as const) requireTestedEar(ear, ears[ear])
  return ears
}

function requireTestedEar(ear: Ear, tested: TestedEar): void {
  requireAudiogram(`${ear} air`, tested.air)
  requireAudiogram(`${ear} bone`, tested.bone)
  if (tested.airBeforeMasking) requireAudiogram(`${ear} airBeforeMasking`, tested.airBeforeMasking)
  if (tested.boneBeforeMasking) requireAudiogram(`${ear} boneBeforeMasking`, tested.boneBeforeMasking)
  if (tested.speechReceptionThreshold !== undefined) {
    requireDbHl(`${ear} speechReceptionThreshold`, tested.speechReceptionThreshold)
  }
  if (tested.repeatAt1000 !== undefined) requireDbHl(`${ear} repeatAt1000`, tested.repeatAt1000)
}

type Conduction = 'air' | 'bone'

/** The level heard without masking, in dB HL, whether or not a masked threshold has replaced it since. */
export function unmaskedLevel(tested: TestedEar, route: Conduction, frequency: FrequencyHz): DbHl | undefined {
  const before = route === 'air' ? tested.airBeforeMasking : tested.boneBeforeMasking
  return levelIf(before?.get(frequency), false) ?? levelIf(tested[route].get(frequency), false)
}

/** The level heard with the other ear masked, in dB HL. */
export function maskedLevel(tested: TestedEar, route: Conduction, frequency: FrequencyHz): DbHl | undefined {
  return levelIf(tested[route].get(frequency), true)
}

/** Whether the threshold that stands was sought with the other ear masked, with or without a response. */
export function isMasked(tested: TestedEar, route: Conduction, frequency: FrequencyHz): boolean {
  const threshold = tested[route].get(frequency)
  return threshold !== undefined && threshold.kind !== 'could-not-test' && threshold.masked
}

function levelIf(threshold: Threshold | undefined, masked: boolean): DbHl | undefined {
  return threshold?.kind === 'heard' && threshold.masked === masked ? threshold.level : undefined
}

/** The best level heard by bone conduction without masking on either side: it may belong to either inner ear. */
export function unmaskedBoneOfEither(ears: TestedEars, frequency: FrequencyHz): DbHl | undefined {
  const right = unmaskedLevel(ears.right, 'bone', frequency)
  const left = unmaskedLevel(ears.left, 'bone', frequency)
  if (right === undefined || left === undefined) return right ?? left
  return asDbHl(Math.min(right, left))
}

/** What is best known of the inner ear of one side: its masked bone conduction, or else what either inner ear heard. */
export function boneAttributedTo(ears: TestedEars, ear: Ear, frequency: FrequencyHz): DbHl | undefined {
  return maskedLevel(ears[ear], 'bone', frequency) ?? unmaskedBoneOfEither(ears, frequency)
}

/** Every frequency that either ear has by air or bone conduction, from the lowest up. */
export function testedFrequencies({ right, left }: TestedEars): readonly FrequencyHz[] {
  const all = [right.air, right.bone, left.air, left.bone].flatMap((audiogram) => [...audiogram.keys()])
  return [...new Set(all)].toSorted((a, b) => a - b)
}

export const otherOf = (ears: TestedEars, ear: Ear): TestedEar => ears[otherEar(ear)]
