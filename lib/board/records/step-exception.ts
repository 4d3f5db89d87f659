import * as z from 'zod/mini'
import { RecordId, stampFields } from '../identity.ts'

/** Characters: quick to type with an operation going on, and enough for a reason. */
export const reasonLength = 280

/**
 * Why somebody went on with a step although one that it needs was open. Signed by its stamp; never changed and never
 * removed. A record of its own and no field of the step: what two people answer at once both stands.
 */
export const StepException = z.strictObject({
  ...stampFields,
  step: RecordId,
  /** the prerequisite that was open */
  need: RecordId,
  reason: z.string().check(z.regex(/\S/, 'something to read'), z.maxLength(reasonLength)),
})
export type StepException = z.infer<typeof StepException>
