import { z } from 'zod'
import { Moment, ParticipantId, Rank, RecordId, ShortText, stampFields } from '../identity.ts'
import { RichText } from '../rich-text.ts'

export const Citation = z.strictObject({ kind: z.enum(['question', 'annotation', 'test']), id: RecordId })
export type Citation = z.infer<typeof Citation>

/** A finding, a decision or the reason for one, written together. A struck note stays legible. */
export const Note = z.strictObject({
  ...stampFields,
  kind: z.enum(['finding', 'decision', 'reason']),
  rank: Rank,
  cites: z.array(Citation).max(20),
  body: RichText,
  struck: z.strictObject({ by: ParticipantId, at: Moment, reason: ShortText.min(1) }).optional(),
})
export type Note = z.infer<typeof Note>
