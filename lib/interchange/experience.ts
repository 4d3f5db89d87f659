import * as z from 'zod/mini'
import { CouplingSite, DeviceClass } from '../devices/classes.ts'
import { FrequencyHz } from '../units/frequencies.ts'

/** Ears of one option that are learned from at most: with more the forecast changes by less than it is rounded to. */
export const mostLearned = 400

/**
 * GET /api/cases/:id/experience: gains of the caller's other patients, for the forecast of this case. One entry an ear, in
 * no order, with nothing that tells whose it is.
 */
export const ExperienceAnswer = z.strictObject({
  ears: z.array(
    z.strictObject({
      deviceClass: DeviceClass,
      couplingSite: CouplingSite,
      gains: z.array(z.strictObject({ frequency: FrequencyHz, gainDb: z.number(), beyondGroupDb: z.number() })),
    }),
  ),
})
export type ExperienceAnswer = z.infer<typeof ExperienceAnswer>
