import * as z from 'zod/mini'

/** Where a fixation comes back. */
export const FixationPlace = z.enum(['malleus', 'incus', 'malleus-and-incus', 'stapes'])
export type FixationPlace = z.infer<typeof FixationPlace>

/** The joint between incus and stapes: what is left of its stiffness and loss, or apart. */
export const IncusStapesJoint = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('slack'), factor: z.number().check(z.minimum(0.01), z.maximum(1)) }),
  z.strictObject({ kind: z.literal('apart') }),
])
export type IncusStapesJoint = z.infer<typeof IncusStapesJoint>

/** "What if": what may become of the ear after the operation. What is absent stays as it is. */
export const Scenario = z.strictObject({
  /** stiffness of the ligaments against normal: 3 to 10 fibrous tissue, about 100 a bony bar, 1000 extensive new bone */
  fixation: z.optional(z.strictObject({ at: FixationPlace, times: z.number().check(z.minimum(1), z.maximum(1000)) })),
  /** what a partial contact takes from the actuator at all frequencies alike; without an SD half of the loss is taken */
  contact: z.optional(
    z.strictObject({
      lossDb: z.number().check(z.minimum(0), z.maximum(20)),
      sdDb: z.optional(z.number().check(z.minimum(0), z.maximum(20))),
    }),
  ),
  /** q: what is left of stiffness and loss of the joint between malleus and incus */
  malleusIncusSlack: z.optional(z.number().check(z.minimum(0.01), z.maximum(1))),
  incusStapes: z.optional(IncusStapesJoint),
  /** years in which the inner ear ages as the norm of the patient's age and sex does */
  innerEarYears: z.optional(z.number().check(z.minimum(0), z.maximum(30))),
})
export type Scenario = z.infer<typeof Scenario>

/** Age and sex as the norm knows them. */
export const Patient = z.strictObject({
  ageYears: z.number().check(z.minimum(0), z.maximum(120)),
  sex: z.enum(['male', 'female']),
})
export type Patient = z.infer<typeof Patient>
