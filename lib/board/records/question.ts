import { z } from 'zod'
import { LongText, Moment, ParticipantId, Rank, RecordId, ShortText, stampFields } from '../identity.ts'
import { ChartPlace } from './annotation.ts'

export const QuestionState = z.enum(['raised', 'called', 'answered', 'deferred', 'set-aside'])
export type QuestionState = z.infer<typeof QuestionState>

/** What a question is about: a place on the audiogram, a decision or a step. */
export const Anchor = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('chart'), place: ChartPlace }),
  z.strictObject({ kind: z.literal('note'), id: RecordId }),
  z.strictObject({ kind: z.literal('step'), id: RecordId }),
])
export type Anchor = z.infer<typeof Anchor>

export const Question = z.strictObject({
  ...stampFields,
  text: z.string().min(1).max(600),
  anchor: Anchor.optional(),
  state: QuestionState,
  rank: Rank,
  /** the question that stands for this one too */
  foldedInto: RecordId.optional(),
  answer: z
    .strictObject({ text: LongText.min(1), by: ParticipantId, at: Moment, saidBy: ShortText.optional() })
    .optional(),
  /** until when a deferred question waits, in words ("six-month visit") */
  deferredTo: ShortText.optional(),
  movedAt: Moment.optional(),
})
export type Question = z.infer<typeof Question>

export const Reply = z.strictObject({ ...stampFields, question: RecordId, text: z.string().min(1).max(1000) })
export type Reply = z.infer<typeof Reply>

/** One person's support of a question. Its id is made of both, so that nobody can back a question twice. */
export const Backing = z
  .strictObject({ ...stampFields, question: RecordId })
  .refine((backing) => backing.id === backingId(backing.question, backing.author), {
    path: ['id'],
    message: 'one backing a person and question',
  })
export type Backing = z.infer<typeof Backing>

export const backingId = (question: RecordId, participant: ParticipantId): RecordId => `${question}.${participant}`
