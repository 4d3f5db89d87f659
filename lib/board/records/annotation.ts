import * as z from 'zod/mini'
import { Ear, FrequencyHz } from '../../units/frequencies.ts'
import { DbHl } from '../../units/levels.ts'
import { pictureField, RecordId, ShortText, stampFields } from '../identity.ts'

/** A place on the audiogram of one ear: a point, or a band of frequencies. */
export const ChartPlace = z
  .discriminatedUnion('kind', [
    z.strictObject({ kind: z.literal('pin'), ear: Ear, frequency: FrequencyHz, level: DbHl }),
    z.strictObject({ kind: z.literal('band'), ear: Ear, from: FrequencyHz, to: FrequencyHz }),
  ])
  .check(
    z.refine((place) => place.kind === 'pin' || place.from < place.to, {
      path: ['to'],
      message: 'a band ends above where it begins',
    }),
  )
export type ChartPlace = z.infer<typeof ChartPlace>

/** A pin or bracket with text on the audiogram, about one test or about the ear in general. */
export const Annotation = z.strictObject({
  ...stampFields,
  ...pictureField,
  place: ChartPlace,
  test: z.optional(RecordId),
  text: ShortText.check(z.minLength(1)),
})
export type Annotation = z.infer<typeof Annotation>
