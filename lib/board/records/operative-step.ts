import { z } from 'zod'
import { LongText, Moment, Rank, ShortText, stampFields } from '../identity.ts'

export const StepState = z.enum(['ahead', 'under-way', 'done', 'left-out'])
export type StepState = z.infer<typeof StepState>

/** One step of the operation, in the order of `rank`. */
export const OperativeStep = z.strictObject({
  ...stampFields,
  rank: Rank,
  title: ShortText.min(1),
  check: LongText,
  hazard: LongText,
  state: StepState,
  startedAt: Moment.optional(),
  endedAt: Moment.optional(),
})
export type OperativeStep = z.infer<typeof OperativeStep>
