import { type ClockExchange, type ClockOffset, clockOffsetFrom } from '@/lib/board/server-clock.ts'
import { ServerClock } from '@/lib/interchange/api.ts'
import { askApi } from './api-client.ts'
import { keepOffset } from './server-clock.ts'

/** The first exchange often waits for a connection; the quickest of these counts. */
const exchanges = 5

/**
 * Reads the server's clock, for the whole page.
 * @throws ApiFault when the server cannot be asked
 */
export async function readServerClock(): Promise<ClockOffset> {
  const made: ClockExchange[] = []
  for (let count = 0; count < exchanges; count++) {
    const sentMs = Date.now()
    const { now } = await askApi('/api/clock', ServerClock)
    made.push({ sentMs, serverMs: Date.parse(now), receivedMs: Date.now() })
  }
  const offset = clockOffsetFrom(made)
  keepOffset(offset)
  return offset
}
