import * as z from 'zod/mini'
import { FrequencyHz } from '../units/frequencies.ts'
import { WordScoreAnchor } from './device-profile.ts'
import { SealedNumber, SealedRange } from './sealed-numbers.ts'

/** A change of one number, as it is frozen: changed minus before. */
export const SealedChange = z.discriminatedUnion('kind', [
  z.strictObject({
    kind: z.literal('change'),
    value: SealedNumber,
    sd: SealedNumber.check(z.minimum(0)),
    interval50: SealedRange,
    interval: SealedRange,
  }),
  z.strictObject({ kind: z.literal('absent'), reason: z.literal('no-number-on-one-side') }),
])
export type SealedChange = z.infer<typeof SealedChange>

/** What a scenario does to a forecast: aided thresholds in dB, positive is worse; words in percentage points. */
export const SealedAnswer = z.strictObject({
  byFrequency: z.array(z.strictObject({ frequency: FrequencyHz, aidedThreshold: SealedChange })).check(z.maxLength(18)),
  meanAidedThreshold: SealedChange,
  wordScores: z
    .array(z.strictObject({ variant: WordScoreAnchor.shape.variant, score: SealedChange }))
    .check(z.maxLength(4)),
})
export type SealedAnswer = z.infer<typeof SealedAnswer>
