import { clockWithSecondsOf, dayOf } from '@/app/messages/moments.ts'

/** The reader's wall clock to the second, "10:42:07"; with its day when that is not today. */
export function wallClock(ms: number): string {
  const time = new Date(ms)
  const isToday = time.toDateString() === new Date().toDateString()
  return isToday ? clockWithSecondsOf(ms) : `${dayOf(time.toISOString())}, ${clockWithSecondsOf(ms)}`
}

/** A length of time as hours, minutes and seconds: "1:02:07". */
export function elapsed(ms: number): string {
  const seconds = Math.round(Math.abs(ms) / 1000)
  const two = (value: number) => String(value).padStart(2, '0')
  return `${Math.floor(seconds / 3600)}:${two(Math.floor(seconds / 60) % 60)}:${two(seconds % 60)}`
}
