import type { FrequencyHz } from '../units/frequencies.ts'
import { requireDbHl, requireWithin } from './domain.ts'
import type { Provenance } from './provenance.ts'
import type { AirTransducer } from './tested-ear.ts'

type ByFrequency = Readonly<Partial<Record<FrequencyHz, number>>>

/**
 * Single values, in dB, above which cross-hearing has to be expected: what the rules decide on. By bone conduction it is
 * 0 dB. Insert values assume deep insertion; with shallow insertion the supra-aural value applies.
 */
export const decisionAttenuation: Provenance & { readonly byTransducer: Readonly<Record<AirTransducer, number>> } = {
  byTransducer: { 'supra-aural': 40, 'circum-aural': 40, insert: 55 },
  source:
    'BSA Recommended Procedure, pure-tone audiometry, 2018; Chaiklin 1967, Killion et al. 1985, Sklare and Denenberg 1987',
  status: 'confirmed',
  reservation: '40 dB is confirmed; 55 dB for insert earphones is from memory, unconfirmed',
}

/** Smallest interaural attenuation found at each frequency, in dB. */
export const handbookAttenuation: Provenance & { readonly byTransducer: Readonly<Record<AirTransducer, ByFrequency>> } =
  {
    byTransducer: {
      'supra-aural': { 125: 35, 250: 40, 500: 40, 1000: 40, 2000: 45, 4000: 50, 8000: 50 },
      'circum-aural': {},
      insert: { 250: 75, 500: 75, 1000: 60, 2000: 55, 4000: 65 },
    },
    source: 'handbook minima by frequency',
    status: 'from memory, unconfirmed',
  }

/** The handbook minimum at the frequency, or the single decision value where the handbook has none, in dB. */
export function minimumAttenuation(transducer: AirTransducer, frequency: FrequencyHz): number {
  return handbookAttenuation.byTransducer[transducer][frequency] ?? decisionAttenuation.byTransducer[transducer]
}

/** Added to the least masking for bone conduction because the earphone covers the masked ear, in dB. */
export const occlusionEffect: Provenance & { readonly conservative: ByFrequency; readonly handbook: ByFrequency } = {
  conservative: { 250: 15, 500: 15, 750: 15, 1000: 10, 1500: 0, 2000: 0, 3000: 0, 4000: 0 },
  handbook: { 250: 30, 500: 20, 1000: 10, 2000: 0, 4000: 0 },
  source: 'teaching-clinic rule (conservative set); handbook (larger set, supra-aural earphones)',
  status: 'confirmed',
  reservation: '15 dB at 750 Hz is an estimate of the source; the larger set is from memory, unconfirmed',
}

/** The occlusion effect of the conservative set in dB: that of 250 Hz below it, and none above 4 kHz. */
export function occlusionAt(frequency: FrequencyHz): number {
  if (frequency > 4000) return 0
  return occlusionEffect.conservative[frequency] ?? occlusionEffect.conservative[250] ?? 0
}

export const maskingArithmetic: Provenance = {
  source: 'handbook arithmetic',
  status: 'from memory, unconfirmed',
  reservation: 'the least level was seen in public course notes; the greatest is from memory',
}

export interface MaskingInput {
  /** Air conduction of the ear that is masked, dB HL. */
  readonly airNonTest: number
  /** Bone conduction of the ear under test, dB HL. */
  readonly boneTest: number
  /** Of the earphone that gives the masking, in dB, 0 to 120. */
  readonly interauralAttenuation: number
  /** 0 for air conduction, and where the masked ear has a gap of its own of 20 dB or more. */
  readonly occlusionEffect: number
}

/** Effective masking levels in dB HL. */
export interface MaskingWindow {
  readonly least: number
  readonly most: number
  /** No level masks one ear without reaching the other. */
  readonly dilemma: boolean
}

/**
 * The range of effective masking that covers the non-test ear and does not reach the test ear.
 * @throws RangeError when a level is not from -20 to 130 dB HL or a difference not from 0 to 120 dB
 * Source: `maskingArithmetic`. Checked by: tests/published/masking-rules.test.ts
 */
export function maskingWindow(input: MaskingInput): MaskingWindow {
  const attenuation = requireWithin('interauralAttenuation', input.interauralAttenuation, 0, 120, 'dB')
  const occlusion = requireWithin('occlusionEffect', input.occlusionEffect, 0, 120, 'dB')
  const least = requireDbHl('airNonTest', input.airNonTest) + 10 + occlusion
  const most = requireDbHl('boneTest', input.boneTest) + attenuation - 5
  return { least, most, dilemma: least > most }
}
