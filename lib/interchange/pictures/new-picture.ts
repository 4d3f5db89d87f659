import * as z from 'zod/mini'
import { RecordId, ShortText } from '../../board/identity.ts'
import { Picture } from '../../board/records/picture.ts'

/**
 * What is said of a photograph that is sent, in headers beside its bytes: a caption is for the case alone, and addresses
 * stand in the logs of proxies. The caption is percent-encoded UTF-8, as `encodeURIComponent` writes it.
 */
export const NewPicture = z.strictObject({ caption: ShortText, step: z.optional(RecordId) })
export type NewPicture = z.infer<typeof NewPicture>

export const pictureHeaders = { caption: 'picture-caption', step: 'picture-step' } as const

/** POST /api/cases/:id/pictures: the record that was written. */
export const AddedPicture = z.strictObject({ picture: Picture })
export type AddedPicture = z.infer<typeof AddedPicture>

/** What is sent is larger than what is kept: metadata that is left out counts too. */
export const sentPictureBytes = 1536 * 1024
