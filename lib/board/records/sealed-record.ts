import * as z from 'zod/mini'
import { DeviceProfile } from '../../devices/device-profile.ts'
import { SealedAnswer } from '../../devices/sealed-answer.ts'
import { SealedForecast } from '../../devices/sealed-forecast.ts'
import { RecordId, ShortText, stampFields } from '../identity.ts'

/** Records that nobody changes or removes once they are made; a later one takes their place. */

/** The team's own profile of a device, from its labelling. A correction is another record with a higher version. */
export const ProfileRecord = z.strictObject({ ...stampFields, profile: DeviceProfile })
export type ProfileRecord = z.infer<typeof ProfileRecord>

/** "What if", frozen with its answer in numbers: for a device option, and for a question if it answers one. */
export const ScenarioRecord = z
  .strictObject({
    ...stampFields,
    title: ShortText.check(z.minLength(1)),
    /** the forecast under the scenario */
    content: SealedForecast,
    /** against the forecast of the ear as it was found */
    answer: SealedAnswer,
    question: z.optional(RecordId),
    supersedes: z.optional(RecordId),
  })
  .check(
    z.refine(({ content }) => content.scenario !== undefined, {
      path: ['content', 'scenario'],
      message: 'a scenario says what it assumes',
    }),
  )
export type ScenarioRecord = z.infer<typeof ScenarioRecord>

/** A forecast that its author sealed at its time, before the outcome was known. */
export const ForecastRecord = z.strictObject({
  ...stampFields,
  content: SealedForecast,
  /** the frozen scenario under which it holds; absent: the ear as the plan describes it */
  scenario: z.optional(RecordId),
  /** the forecast of the same ear, option and scenario that counted before */
  follows: z.optional(RecordId),
})
export type ForecastRecord = z.infer<typeof ForecastRecord>
