import { useMessages } from '@/app/messages/use-messages.ts'

interface Formats {
  readonly clock: Intl.DateTimeFormat
  readonly day: Intl.DateTimeFormat
}

/** Making a format costs a hundred times as much as using one, and a floor shows hundreds of times. */
const formats = new Map<string, Formats>()

function formatsIn(language: string): Formats {
  const made = formats.get(language) ?? {
    clock: new Intl.DateTimeFormat(language, { hour: '2-digit', minute: '2-digit', hourCycle: 'h23' }),
    day: new Intl.DateTimeFormat(language, { day: 'numeric', month: 'short', year: 'numeric' }),
  }
  formats.set(language, made)
  return made
}

/** A time of day; with its date when that is not today. */
export function Moment({ at }: { readonly at: string }) {
  const { clock, day } = formatsIn(useMessages().language)
  const time = new Date(at)
  const isToday = time.toDateString() === new Date().toDateString()
  return <time dateTime={at}>{isToday ? clock.format(time) : `${day.format(time)}, ${clock.format(time)}`}</time>
}
