import * as z from 'zod/mini'
import { Moment, ParticipantId, RecordId, ShortText, stampFields } from '../identity.ts'

/** How many options a vote has, and how long each may be in characters. */
export const voteLimits = { fewest: 2, most: 6, option: 120 } as const

/** How sure somebody is of the option that they chose, per cent: 50 is a coin's toss between two, 100 is certain. */
export const Confidence = z.int().check(z.minimum(50), z.maximum(100))

const ConfidenceSpread = z.strictObject({
  low: Confidence,
  median: z.number().check(z.minimum(50), z.maximum(100)),
  high: Confidence,
})
const Count = z.int().check(z.minimum(0))

/** What was counted when the moderator closed the vote. Who chose what is not in it, and nowhere in the documents. */
export const VoteResult = z.strictObject({
  by: ParticipantId,
  at: Moment,
  /** in the order of the options of the vote */
  options: z.array(z.strictObject({ votes: Count, confidence: z.optional(ConfidenceSpread) })),
  /** of everybody who gave one */
  confidence: z.optional(ConfidenceSpread),
  /** how many could have voted at the close and had not */
  notVoted: Count,
})
export type VoteResult = z.infer<typeof VoteResult>

/** A question to panel and team with 2 to 6 options. It is open until it has a result, which only the server writes. */
export const Vote = z
  .strictObject({
    ...stampFields,
    question: ShortText.check(z.minLength(1)),
    /** the decision that it is about */
    note: z.optional(RecordId),
    options: z
      .array(z.string().check(z.minLength(1), z.maxLength(voteLimits.option)))
      .check(z.minLength(voteLimits.fewest), z.maxLength(voteLimits.most)),
    asksConfidence: z.boolean(),
    result: z.optional(VoteResult),
  })
  .check(
    z.refine(({ options }) => new Set(options).size === options.length, {
      path: ['options'],
      message: 'every option once',
    }),
    z.refine(({ options, result }) => result === undefined || result.options.length === options.length, {
      path: ['result'],
      message: 'one count an option',
    }),
  )
export type Vote = z.infer<typeof Vote>

/** What one person says in a vote: the place of the option, from 0, and how sure they are of it. */
export const Ballot = z.strictObject({
  option: z.int().check(z.minimum(0), z.maximum(voteLimits.most - 1)),
  confidence: z.optional(Confidence),
})
export type Ballot = z.infer<typeof Ballot>
