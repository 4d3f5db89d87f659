import * as z from 'zod/mini'
import { stampFields } from '../identity.ts'

/** Longer than any video link that is used; common practice, no source. */
export const mostDelayMs = 90_000

/**
 * How late one participant sees the main screen, from a measurement of their own; there is one a person, under their
 * id. What is kept are the delays that were pressed, in ms; median and range follow from them.
 */
export const VideoDelay = z
  .strictObject({
    ...stampFields,
    delaysMs: z.array(z.number().check(z.minimum(0), z.maximum(mostDelayMs))).check(z.length(3)),
    /** how far the person's clock, as corrected, may have been from the server's; ms */
    clockErrorMs: z.number().check(z.minimum(0), z.maximum(mostDelayMs)),
  })
  .check(
    z.refine((delay) => delay.id === delay.author, { path: ['id'], message: 'one delay a person, under their id' }),
  )
export type VideoDelay = z.infer<typeof VideoDelay>
