import * as z from 'zod/mini'
import { Ear } from '../../units/frequencies.ts'
import { RecordId, stampFields } from '../identity.ts'

export const Showing = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('nothing') }),
  z.strictObject({ kind: z.literal('audiogram'), ear: z.union([Ear, z.literal('both')]), test: z.optional(RecordId) }),
  z.strictObject({ kind: z.literal('question'), id: RecordId }),
  z.strictObject({ kind: z.literal('note'), id: RecordId }),
  z.strictObject({ kind: z.literal('contingency'), id: RecordId }),
  z.strictObject({ kind: z.literal('forecast') }),
  z.strictObject({ kind: z.literal('options') }),
  z.strictObject({ kind: z.literal('scenario'), id: RecordId }),
  z.strictObject({ kind: z.literal('sealed-forecast'), id: RecordId }),
  z.strictObject({ kind: z.literal('steps') }),
  z.strictObject({ kind: z.literal('sync-mark') }),
  z.strictObject({ kind: z.literal('vote'), id: RecordId }),
  z.strictObject({ kind: z.literal('picture'), id: RecordId }),
])
export type Showing = z.infer<typeof Showing>

/** What is on the main screen. `author` and `at` are those of the last edit. */
export const MainScreen = z.strictObject({ ...stampFields, showing: Showing })
export type MainScreen = z.infer<typeof MainScreen>
