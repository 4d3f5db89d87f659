import * as z from 'zod/mini'
import { Actuator } from './drives.ts'
import { SourceId } from './evidence-source.ts'
import { BodyDimension } from './room-measurement.ts'

/** How a body drives: the two actuators of the middle ear, or a transducer that shakes the skull. */
export const BodyDrive = z.enum([...Actuator.options, 'skull-transducer'])
export type BodyDrive = z.infer<typeof BodyDrive>

/** One thing that is implanted: what space it takes, how heavy it is and how it drives. */
export const ActuatorBody = z
  .strictObject({
    id: z.string().check(z.regex(/^[a-z][a-z-]{0,39}$/)),
    drive: BodyDrive,
    /** absent where nothing is known here */
    massMg: z.optional(z.number().check(z.minimum(0.1), z.maximum(100_000))),
    envelope: z
      .array(z.strictObject({ dimension: BodyDimension, mm: z.number().check(z.minimum(0.1), z.maximum(60)) }))
      .check(z.minLength(1)),
    source: SourceId,
  })
  .check(
    z.refine((body) => new Set(body.envelope.map(({ dimension }) => dimension)).size === body.envelope.length, {
      path: ['envelope'],
      message: 'each dimension once',
    }),
  )
export type ActuatorBody = z.infer<typeof ActuatorBody>
