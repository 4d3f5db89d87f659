import type { Language } from './language.ts'
import { locales } from './language.ts'
import { pageLanguage } from './page-language.ts'

interface Formats {
  readonly clock: Intl.DateTimeFormat
  readonly clockWithSeconds: Intl.DateTimeFormat
  readonly day: Intl.DateTimeFormat
  readonly calendarDay: Intl.DateTimeFormat
}

/** Making a format costs a hundred times as much as using one, and a floor shows hundreds of times. */
const made = new Map<Language, Formats>()

function formats(): Formats {
  const language = pageLanguage()
  const known = made.get(language)
  if (known !== undefined) return known
  const locale = locales[language]
  const time = { hour: '2-digit', minute: '2-digit', hourCycle: 'h23' } as const
  const day = { day: 'numeric', month: 'short', year: 'numeric' } as const
  const fresh = {
    clock: new Intl.DateTimeFormat(locale, time),
    clockWithSeconds: new Intl.DateTimeFormat(locale, { ...time, second: '2-digit' }),
    day: new Intl.DateTimeFormat(locale, day),
    calendarDay: new Intl.DateTimeFormat(locale, { ...day, timeZone: 'UTC' }),
  }
  made.set(language, fresh)
  return fresh
}

/** Time of day of an ISO 8601 instant, on the reader's clock: "10:45". */
export const clockOf = (moment: string): string => formats().clock.format(new Date(moment))

/** Time of day to the second, of milliseconds since 1970: "10:45:07". */
export const clockWithSecondsOf = (ms: number): string => formats().clockWithSeconds.format(ms)

/**
 * Day of an ISO 8601 instant on the reader's calendar, month in letters so that no country reads it wrongly:
 * "2 Mar 2026", "2 mars 2026". A calendar day is no instant: `calendarDayOf` writes it as it stands.
 */
export const dayOf = (moment: string): string => formats().day.format(new Date(moment))

export const dayAndClockOf = (moment: string): string => `${dayOf(moment)}, ${clockOf(moment)}`

/**
 * A calendar day as it was written down, whatever the reader's time zone: "2 Mar 2026". Month in letters and day first,
 * so that no country reads it wrongly.
 */
export const calendarDayOf = (calendarDay: string): string => formats().calendarDay.format(new Date(calendarDay))
