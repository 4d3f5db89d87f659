import * as z from 'zod/mini'
import { Ear, FrequencyHz } from '../../units/frequencies.ts'
import { LongText, Moment, ParticipantId, RecordId, ShortText, stampFields } from '../identity.ts'
import { PointRoute } from './hearing-test.ts'

/** Thresholds that a visit is asked for. */
export const WantedThresholds = z.strictObject({
  ear: Ear,
  route: PointRoute,
  frequencies: z.array(FrequencyHz).check(z.minLength(1), z.maxLength(18)),
})
export type WantedThresholds = z.infer<typeof WantedThresholds>

export const VisitItemState = z.enum(['open', 'done', 'dropped'])
export type VisitItemState = z.infer<typeof VisitItemState>

/** Something that a visit has to answer: a question that was put off, or whatever else is not to be forgotten. */
export const VisitItem = z
  .strictObject({
    ...stampFields,
    visit: RecordId,
    words: ShortText.check(z.minLength(1)),
    /** what is to be measured; absent: something to look at or to ask */
    wanted: z.optional(WantedThresholds),
    /** of the floor: the question that waits for it */
    question: z.optional(RecordId),
    state: VisitItemState,
    done: z.optional(z.strictObject({ by: ParticipantId, at: Moment, outcome: LongText.check(z.minLength(1)) })),
  })
  .check(
    z.refine((item) => (item.state === 'done') === (item.done !== undefined), {
      path: ['done'],
      message: 'an item that is done says what came of it, and only such an item',
    }),
  )
export type VisitItem = z.infer<typeof VisitItem>
