import * as z from 'zod/mini'
import { Moment, ParticipantId } from '../board/identity.ts'
import { Anchor, Question, Reply } from '../board/records/question.ts'
import { Person } from './api.ts'

/** Requests and answers about questions without a name; few pages ask. */

/** POST /api/cases/:id/unnamed, and /:author to reword what was asked: a question without a name. */
export const UnnamedQuestion = z.strictObject({ text: Question.shape.text, anchor: z.optional(Anchor) })
export type UnnamedQuestion = z.infer<typeof UnnamedQuestion>

/** POST /api/cases/:id/unnamed/:author/reply */
export const UnnamedReply = z.strictObject({ text: Reply.shape.text })
export type UnnamedReply = z.infer<typeof UnnamedReply>

/** The author that stands for the caller in the question just asked. */
export const AskedUnnamed = z.strictObject({ author: ParticipantId })

/** Who stands behind an author without a name. */
export const UnnamedAuthor = z.strictObject({
  author: ParticipantId,
  /** the caller's own */
  isOwn: z.boolean(),
  /** told to moderators alone */
  person: z.nullable(Person),
  /** what the asker was looking at; told to moderators alone */
  pictureAt: z.nullable(Moment),
})
export type UnnamedAuthor = z.infer<typeof UnnamedAuthor>

/** GET /api/cases/:id/unnamed: the caller's own, and for moderators everybody's. */
export const UnnamedAuthors = z.strictObject({ authors: z.array(UnnamedAuthor) })
export type UnnamedAuthors = z.infer<typeof UnnamedAuthors>
