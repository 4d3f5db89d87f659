import { useMessages } from '@/app/messages/use-messages.ts'

/** A time of day; with its date when that is not today. */
export function Moment({ at }: { readonly at: string }) {
  const { language } = useMessages()
  const time = new Date(at)
  const clock = time.toLocaleTimeString(language, { hour: '2-digit', minute: '2-digit', hourCycle: 'h23' })
  const isToday = time.toDateString() === new Date().toDateString()
  const day = time.toLocaleDateString(language, { day: 'numeric', month: 'short', year: 'numeric' })
  return <time dateTime={at}>{isToday ? clock : `${day}, ${clock}`}</time>
}
