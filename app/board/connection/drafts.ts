import { z } from 'zod'
import { Moment, RecordId } from '@/lib/board/identity.ts'
import { type KindName, kindNames } from '@/lib/board/records.ts'

/** What a person had written into one record when the server refused it. */
export const Draft = z.strictObject({
  id: z.string(),
  at: Moment,
  kind: z.enum(kindNames as [KindName, ...KindName[]]),
  record: RecordId,
  /** the record as it stood on this page; absent when the edit removed it */
  value: z.record(z.string(), z.unknown()).optional(),
  /** the sentence that the server's refusal became */
  reason: z.string(),
})
export type Draft = z.infer<typeof Draft>
