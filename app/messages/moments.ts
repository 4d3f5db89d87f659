import { locales } from './language.ts'
import { pageLanguage } from './page-language.ts'

const time = { hour: '2-digit', minute: '2-digit', hourCycle: 'h23' } as const
const day = { day: 'numeric', month: 'short', year: 'numeric' } as const
const kinds = {
  clock: time,
  clockWithSeconds: { ...time, second: '2-digit' },
  day,
  calendarDay: { ...day, timeZone: 'UTC' },
} as const satisfies Record<string, Intl.DateTimeFormatOptions>

/** Making a format costs a hundred times as much as using one, and a floor shows hundreds of times. */
const made = new Map<string, Intl.DateTimeFormat>()

function formatOf(kind: keyof typeof kinds): Intl.DateTimeFormat {
  const language = pageLanguage()
  const key = `${language} ${kind}`
  const format = made.get(key) ?? new Intl.DateTimeFormat(locales[language], kinds[kind])
  made.set(key, format)
  return format
}

/** Time of day of an ISO 8601 instant, on the reader's clock: "10:45". */
export const clockOf = (moment: string): string => formatOf('clock').format(new Date(moment))

/** Time of day to the second, of milliseconds since 1970: "10:45:07". */
export const clockWithSecondsOf = (ms: number): string => formatOf('clockWithSeconds').format(ms)

/**
 * Day of an ISO 8601 instant on the reader's calendar, month in letters so that no country reads it wrongly:
 * "2 Mar 2026", "2 mars 2026". A calendar day is no instant: `calendarDayOf` writes it as it stands.
 */
export const dayOf = (moment: string): string => formatOf('day').format(new Date(moment))

export const dayAndClockOf = (moment: string): string => `${dayOf(moment)}, ${clockOf(moment)}`

/**
 * A calendar day as it was written down, whatever the reader's time zone: "2 Mar 2026". Month in letters and day first,
 * so that no country reads it wrongly.
 */
export const calendarDayOf = (calendarDay: string): string => formatOf('calendarDay').format(new Date(calendarDay))
