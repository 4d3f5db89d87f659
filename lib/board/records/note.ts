import * as z from 'zod/mini'
import { Moment, ParticipantId, Rank, RecordId, ShortText, stampFields } from '../identity.ts'
import { RichText } from '../rich-text.ts'

export const Citation = z.strictObject({ kind: z.enum(['question', 'annotation', 'test']), id: RecordId })
export type Citation = z.infer<typeof Citation>

/** A finding, a decision or the reason for one, written together. A struck note stays legible. */
export const Note = z.strictObject({
  ...stampFields,
  kind: z.enum(['finding', 'decision', 'reason']),
  rank: Rank,
  cites: z.array(Citation).check(z.maxLength(20)),
  body: RichText,
  /** the step that it was written in, or is filed under */
  step: z.optional(RecordId),
  struck: z.optional(z.strictObject({ by: ParticipantId, at: Moment, reason: ShortText.check(z.minLength(1)) })),
})
export type Note = z.infer<typeof Note>
