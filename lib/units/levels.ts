import * as z from 'zod/mini'

/** dB HL. Common practice, no source. */
export const hearingLevelRange = { low: -20, high: 130 } as const

/** Hearing level: dB re the audiometric zero of ISO 389. */
export const DbHl = z
  .number()
  .check(z.minimum(hearingLevelRange.low), z.maximum(hearingLevelRange.high))
  .brand<'dB HL'>()
export type DbHl = z.infer<typeof DbHl>

/** A difference of two levels (gain, gap). Subtracting two hearing levels gives this, never dB HL. */
export type DbGain = number & z.core.$brand<'dB gain'>

/** dB SPL. Common practice, no source. */
export const soundPressureRange = { low: -20, high: 140 } as const

/** Sound pressure level: dB re 20 µPa. */
export const DbSpl = z
  .number()
  .check(z.minimum(soundPressureRange.low), z.maximum(soundPressureRange.high))
  .brand<'dB SPL'>()
export type DbSpl = z.infer<typeof DbSpl>

/** The one place where a plain number becomes a hearing level without a range check (computed means, model output). */
export const asDbHl = (value: number): DbHl => value as DbHl
export const asDbGain = (value: number): DbGain => value as DbGain
export const asDbSpl = (value: number): DbSpl => value as DbSpl
