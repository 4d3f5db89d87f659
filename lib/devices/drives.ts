import * as z from 'zod/mini'

/** Where a force can act on the chain: the coupling sites of active implants, and the malleus for comparison. */
export const ActuatorSite = z.enum([
  'malleus',
  'incus-body',
  'incus-long-process',
  'stapes-head',
  'oval-window',
  'round-window',
])
export type ActuatorSite = z.infer<typeof ActuatorSite>

/**
 * What makes the force. A `fixed-frame` actuator pushes against the skull through a rod, a `floating-mass` actuator
 * against a mass inside its own case, which rests on the ossicle.
 */
export const Actuator = z.enum(['fixed-frame', 'floating-mass'])
export type Actuator = z.infer<typeof Actuator>

/** What drives the ear: sound at the eardrum, or an actuator at a site. */
export const Drive = z.discriminatedUnion('by', [
  z.strictObject({ by: z.literal('sound') }),
  z.strictObject({ by: z.literal('actuator'), site: ActuatorSite, actuator: Actuator }),
])
export type Drive = z.infer<typeof Drive>
