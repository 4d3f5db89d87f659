import * as z from 'zod/mini'
import { RecordId, ShortText, stampFields } from '../identity.ts'

/**
 * Bounds of a photograph. A field of 2000 by 1500 pixels takes some 400 kB as JPEG; a side of 4096 pixels is what every
 * browser can draw. All photographs of a case together are what its archive grows by.
 */
export const pictureLimits = { bytes: 1024 * 1024, sidePx: 4096, ofCase: 100 } as const

export const PictureType = z.enum(['image/png', 'image/jpeg'])
export type PictureType = z.infer<typeof PictureType>

const SidePx = z.int().check(z.minimum(1), z.maximum(pictureLimits.sidePx))

/**
 * A photograph of the operative field. Its bytes lie in the store beside the documents; this says which they are. Only the
 * server writes it, once it has cleaned and stored them: what it says of the bytes never changes.
 */
export const Picture = z.strictObject({
  ...stampFields,
  /** the operative step that it belongs to */
  step: z.optional(RecordId),
  caption: ShortText,
  mediaType: PictureType,
  width: SidePx,
  height: SidePx,
  bytes: z.int().check(z.minimum(1), z.maximum(pictureLimits.bytes)),
  sha256: z.string().check(z.regex(/^[0-9a-f]{64}$/)),
})
export type Picture = z.infer<typeof Picture>
