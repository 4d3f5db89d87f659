import { clockOf, dayAndClockOf, dayOf } from '@/app/messages/moments.ts'

/** A planned time on the reader's clock: "10:45", with its day when that is another one than today. */
export const plannedTimeOf = (moment: string, now: Date): string =>
  dayOf(moment) === dayOf(now.toISOString()) ? clockOf(moment) : dayAndClockOf(moment)

/** Whole minutes from now until a moment, rounded up; undefined when it is past or more than two hours away. */
export function minutesUntil(moment: string, now: Date): number | undefined {
  const minutes = Math.ceil((Date.parse(moment) - now.getTime()) / 60_000)
  return minutes < 1 || minutes > 120 ? undefined : minutes
}

const two = (value: number): string => String(value).padStart(2, '0')

/** What a control of type `datetime-local` shows for a moment: "2026-03-02T10:45" in the reader's time zone. */
export function toLocalEntry(moment: string | null): string {
  if (moment === null) return ''
  const at = new Date(moment)
  const day = [at.getFullYear(), two(at.getMonth() + 1), two(at.getDate())].join('-')
  return `${day}T${two(at.getHours())}:${two(at.getMinutes())}`
}

/** The moment that was typed: null when nothing was, undefined when it is no day and time. */
export function fromLocalEntry(entry: string): string | null | undefined {
  if (entry === '') return null
  const at = new Date(entry)
  return Number.isNaN(at.getTime()) ? undefined : at.toISOString()
}
