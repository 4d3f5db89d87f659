import { z } from 'zod'

/** Identifies a record inside its table. Never begins with `_`, so it cannot name a prototype property. */
export const RecordId = z
  .string()
  .regex(/^[A-Za-z0-9][A-Za-z0-9.-]{0,119}$/, 'letters, digits, dots and dashes, at most 120')
export type RecordId = z.infer<typeof RecordId>

export const ParticipantId = z
  .string()
  .regex(/^[A-Za-z0-9][A-Za-z0-9-]{0,59}$/, 'letters, digits and dashes, at most 60')
export type ParticipantId = z.infer<typeof ParticipantId>

export const CaseId = z.string().regex(/^[A-Za-z0-9][A-Za-z0-9-]{0,59}$/, 'letters, digits and dashes, at most 60')
export type CaseId = z.infer<typeof CaseId>

/** A record that there is one of in a document stands under this id. */
export const onlyId = 'only'

export const Moment = z.iso.datetime()
export const CalendarDay = z.iso.date()

/** What every record carries: who wrote it and when (UTC). */
export const stampFields = { id: RecordId, author: ParticipantId, at: Moment } as const

/** Fractional ordering key. */
export const Rank = z.string().min(1).max(120)

const shortTextLength = 300
const longTextLength = 4000
export const ShortText = z.string().max(shortTextLength)
export const LongText = z.string().max(longTextLength)
export const textLimits = { short: shortTextLength, long: longTextLength } as const
