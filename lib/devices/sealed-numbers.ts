import * as z from 'zod/mini'
import { FrequencyHz } from '../units/frequencies.ts'

/** A number of a sealed forecast: a multiple of 0.01, so that every machine writes the same. */
export const SealedNumber = z.number().check(z.refine((value) => rounded(value) === value, 'a multiple of 0.01'))
export const SealedRange = z.strictObject({ low: SealedNumber, high: SealedNumber })

export const rounded = (value: number): number => Math.round(value * 100) / 100 + 0

/** What both intervals were taken from; a limit that is absent is none. */
const SealedDistribution = z.strictObject({
  mean: SealedNumber,
  sd: SealedNumber.check(z.minimum(0.01)),
  degreesOfFreedom: z.optional(SealedNumber.check(z.minimum(2))),
  low: z.optional(SealedNumber),
  high: z.optional(SealedNumber),
})

/** A prediction as it is sealed, in the unit of its place. */
export const SealedQuantity = z.discriminatedUnion('kind', [
  z.strictObject({
    kind: z.literal('estimate'),
    value: SealedNumber,
    interval50: SealedRange,
    interval: SealedRange,
    distribution: z.optional(SealedDistribution),
  }),
  z.strictObject({ kind: z.literal('at-least'), value: SealedNumber }),
  z.strictObject({ kind: z.literal('at-most'), value: SealedNumber }),
  z.strictObject({ kind: z.literal('absent'), reason: z.string().check(z.regex(/^[a-z][a-z-]{0,59}$/)) }),
])
export type SealedQuantity = z.infer<typeof SealedQuantity>

/** A threshold that went in; `level` is the limit where nothing was heard. */
export const SealedThreshold = z.discriminatedUnion('kind', [
  z.strictObject({ frequency: FrequencyHz, kind: z.literal('heard'), level: SealedNumber, masked: z.boolean() }),
  z.strictObject({ frequency: FrequencyHz, kind: z.literal('no-response'), level: SealedNumber, masked: z.boolean() }),
  z.strictObject({ frequency: FrequencyHz, kind: z.literal('could-not-test') }),
])
export type SealedThreshold = z.infer<typeof SealedThreshold>
