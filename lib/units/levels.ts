import { z } from 'zod'

/** Hearing level: dB re the audiometric zero of ISO 389. Range: common practice, no source. */
export const DbHl = z.number().min(-20).max(130).brand<'dB HL'>()
export type DbHl = z.infer<typeof DbHl>

/** A difference of two levels (gain, gap). Subtracting two hearing levels gives this, never dB HL. */
export type DbGain = number & z.core.$brand<'dB gain'>

/** Sound pressure level: dB re 20 µPa. Range: common practice, no source. */
export const DbSpl = z.number().min(-20).max(140).brand<'dB SPL'>()
export type DbSpl = z.infer<typeof DbSpl>

/** The one place where a plain number becomes a hearing level without a range check (computed means, model output). */
export const asDbHl = (value: number): DbHl => value as DbHl
export const asDbGain = (value: number): DbGain => value as DbGain
export const asDbSpl = (value: number): DbSpl => value as DbSpl
