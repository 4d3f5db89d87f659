import { clockOf, dayAndClockOf } from '@/app/messages/moments.ts'
import { useMessages } from '@/app/messages/use-messages.ts'

/** A time of day; with its date when that is not today. */
export function Moment({ at }: { readonly at: string }) {
  // Drawn again when the page changes its language.
  useMessages()
  const isToday = new Date(at).toDateString() === new Date().toDateString()
  return <time dateTime={at}>{isToday ? clockOf(at) : dayAndClockOf(at)}</time>
}
