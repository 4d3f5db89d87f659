import { messages } from './en.ts'

const clockFormat = new Intl.DateTimeFormat(messages.language, { hour: '2-digit', minute: '2-digit', hourCycle: 'h23' })
const dayFormat = new Intl.DateTimeFormat('en-GB', { day: 'numeric', month: 'short', year: 'numeric' })

/** Time of day of an ISO 8601 instant, on the reader's clock: "10:45". */
export const clockOf = (moment: string): string => clockFormat.format(new Date(moment))

/** Day of an ISO 8601 instant or calendar day, month in letters so that no country reads it wrongly: "2 Mar 2026". */
export const dayOf = (moment: string): string => dayFormat.format(new Date(moment))

export const dayAndClockOf = (moment: string): string => `${dayOf(moment)}, ${clockOf(moment)}`
