import type { ClockOffset } from '@/lib/board/server-clock.ts'

let known: ClockOffset | undefined
/** When the page was opened, by its own clock as it stood when the server's was read. */
let openedMs = 0

/** The page's opening by its own clock as it stands now: earlier than it was, once that clock was set back. */
const openedByNowMs = (): number => Date.now() - performance.now()

/** What the page knows of the server's clock; undefined until it has been read. */
export const knownOffset = (): ClockOffset | undefined => known

export function keepOffset(offset: ClockOffset): void {
  known = offset
  openedMs = openedByNowMs()
}

/**
 * The server's time as well as the page knows it: its own clock until the server's has been read. A clock that is set back
 * meanwhile is seen through. One that is set ahead looks like a device that slept: the guard refuses what comes too early, and
 * the page reads the server's clock anew.
 */
export function serverNow(): Date {
  if (known === undefined) return new Date()
  const setBackMs = Math.max(0, openedMs - openedByNowMs())
  return new Date(Date.now() + known.offsetMs + setBackMs)
}
