import * as z from 'zod/mini'
import { LongText, Moment, Rank, RecordId, ShortText, stampFields } from '../identity.ts'

export const StepState = z.enum(['ahead', 'under-way', 'done', 'left-out'])
export type StepState = z.infer<typeof StepState>

export const mostNeeds = 20

/** One step of the operation, in the order of `rank`. */
export const OperativeStep = z.strictObject({
  ...stampFields,
  rank: Rank,
  title: ShortText.check(z.minLength(1)),
  check: LongText,
  hazard: LongText,
  state: StepState,
  startedAt: z.optional(Moment),
  endedAt: z.optional(Moment),
  /** its prerequisites: the steps that are done (or left out on purpose) before it begins */
  needs: z.optional(
    z.array(RecordId).check(
      z.maxLength(mostNeeds),
      z.refine((needs) => new Set(needs).size === needs.length, 'each prerequisite once'),
    ),
  ),
})
export type OperativeStep = z.infer<typeof OperativeStep>
