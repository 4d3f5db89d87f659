import * as z from 'zod/mini'

/** Identifies a record inside its table. Never begins with `_`, so it cannot name a prototype property. */
export const RecordId = z
  .string()
  .check(z.regex(/^[A-Za-z0-9][A-Za-z0-9.-]{0,119}$/, 'letters, digits, dots and dashes, at most 120'))
export type RecordId = z.infer<typeof RecordId>

export const ParticipantId = z
  .string()
  .check(z.regex(/^[A-Za-z0-9][A-Za-z0-9-]{0,59}$/, 'letters, digits and dashes, at most 60'))
export type ParticipantId = z.infer<typeof ParticipantId>

/**
 * Begins the author's id of what somebody asked without their name. Each such question has an id of its own as author; only
 * the server knows whose it is (server/unnamed).
 */
export const unnamedPrefix = 'unnamed-'
export const isUnnamed = (author: ParticipantId): boolean => author.startsWith(unnamedPrefix)

export const CaseId = z
  .string()
  .check(z.regex(/^[A-Za-z0-9][A-Za-z0-9-]{0,59}$/, 'letters, digits and dashes, at most 60'))
export type CaseId = z.infer<typeof CaseId>

/** A record that there is one of in a document stands under this id. */
export const onlyId = 'only'

export const Moment = z.iso.datetime()
export const CalendarDay = z.iso.date()

/** What every record carries: who wrote it and when (UTC). */
export const stampFields = { id: RecordId, author: ParticipantId, at: Moment } as const

/**
 * The moment of the operation that the writer of a record was looking at, by the server's clock: the time of writing less
 * their video delay. Absent where the delay is not measured.
 */
export const pictureField = { pictureAt: z.optional(Moment) } as const

/** Fractional ordering key. */
export const Rank = z.string().check(z.minLength(1), z.maxLength(120))

const shortTextLength = 300
const longTextLength = 4000
export const ShortText = z.string().check(z.maxLength(shortTextLength))
export const LongText = z.string().check(z.maxLength(longTextLength))
export const textLimits = { short: shortTextLength, long: longTextLength } as const
