import * as z from 'zod/mini'
import { DeviceOption } from '../../devices/classes.ts'
import { LongText, Moment, ParticipantId, pictureField, Rank, RecordId, ShortText, stampFields } from '../identity.ts'
import { ChartPlace } from './annotation.ts'

export const QuestionState = z.enum(['raised', 'called', 'answered', 'deferred', 'set-aside'])
export type QuestionState = z.infer<typeof QuestionState>

/** Characters. */
export const floorTextLimits = { question: 600, reply: 1000 } as const

/** A short tag of the moderator's; it has something to read and no space at its ends. */
export const themeLength = 40
export const mostThemes = 5
export const Theme = z.string().check(z.regex(/^\S(.*\S)?$/su, 'a word or a few'), z.maxLength(themeLength))

/** What a question is about: a place on the audiogram, a decision, a step, a device option or a "what if". */
export const Anchor = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('chart'), place: ChartPlace }),
  z.strictObject({ kind: z.literal('note'), id: RecordId }),
  z.strictObject({ kind: z.literal('step'), id: RecordId }),
  z.strictObject({ kind: z.literal('option'), option: DeviceOption }),
  z.strictObject({ kind: z.literal('scenario'), id: RecordId }),
])
export type Anchor = z.infer<typeof Anchor>

export const Question = z.strictObject({
  ...stampFields,
  ...pictureField,
  text: z.string().check(z.minLength(1), z.maxLength(floorTextLimits.question)),
  anchor: z.optional(Anchor),
  state: QuestionState,
  rank: Rank,
  /** the question that stands for this one too */
  foldedInto: z.optional(RecordId),
  answer: z.optional(
    z.strictObject({
      text: LongText.check(z.minLength(1)),
      by: ParticipantId,
      at: Moment,
      saidBy: z.optional(ShortText),
      /** the step that was under way when it was given */
      step: z.optional(RecordId),
    }),
  ),
  /** until when a deferred question waits, in words ("six-month visit") */
  deferredTo: z.optional(ShortText),
  movedAt: z.optional(Moment),
  /** whose the last move was, so that two moderators who act at once can be told of each other */
  movedBy: z.optional(ParticipantId),
  /** what the moderator files it under */
  themes: z.optional(z.array(Theme).check(z.maxLength(mostThemes))),
})
export type Question = z.infer<typeof Question>

export const Reply = z.strictObject({
  ...stampFields,
  question: RecordId,
  text: z.string().check(z.minLength(1), z.maxLength(floorTextLimits.reply)),
})
export type Reply = z.infer<typeof Reply>

/** One person's support of a question. Its id is made of both, so that nobody can back a question twice. */
export const Backing = z.strictObject({ ...stampFields, ...pictureField, question: RecordId }).check(
  z.refine((backing) => backing.id === backingId(backing.question, backing.author), {
    path: ['id'],
    message: 'one backing a person and question',
  }),
)
export type Backing = z.infer<typeof Backing>

export const backingId = (question: RecordId, participant: ParticipantId): RecordId => `${question}.${participant}`
