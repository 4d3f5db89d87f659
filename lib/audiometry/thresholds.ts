import type { FrequencyHz } from '../units/frequencies.ts'
import type { DbHl } from '../units/levels.ts'

/**
 * One threshold as measured. "No response at the audiometer's limit" is a state of its own (the true threshold is
 * worse than `limit`), never a number to average. A frequency that was not tested is absent from the audiogram.
 */
export type Threshold =
  | { readonly kind: 'heard'; readonly level: DbHl; readonly masked: boolean }
  | { readonly kind: 'no-response'; readonly limit: DbHl; readonly masked: boolean }
  | { readonly kind: 'could-not-test' }

export type Route = 'air' | 'bone' | 'sound-field' | 'aided'

/** Thresholds of one ear by one route. Masked and unmasked of the same frequency: the masked one stands here. */
export type Audiogram = ReadonlyMap<FrequencyHz, Threshold>

export type Transducer = 'supra-aural' | 'circum-aural' | 'insert' | 'bone-mastoid' | 'bone-forehead' | 'loudspeaker'
