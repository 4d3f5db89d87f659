/** One question for the server's time: own clock when it left and when the answer came, server's clock between; ms since 1970. */
export interface ClockExchange {
  readonly sentMs: number
  readonly serverMs: number
  readonly receivedMs: number
}

/** What to add to the own clock to have the server's, and how far that may be wrong either way; ms. */
export interface ClockOffset {
  readonly offsetMs: number
  readonly errorMs: number
}

/**
 * The server's clock was read somewhere between leaving and coming back, so the middle is wrong by at most half of the
 * way there and back; the quickest exchange bounds it best.
 * Method: F. Cristian, Probabilistic clock synchronization, Distributed Computing 3 (1989) 146-158 (from memory, unconfirmed).
 * @param exchanges at least one
 * @throws RangeError without an exchange, or when none came back after it was sent
 */
export function clockOffsetFrom(exchanges: readonly ClockExchange[]): ClockOffset {
  const offsets = exchanges
    .filter(({ sentMs, receivedMs }) => receivedMs >= sentMs)
    .map(({ sentMs, serverMs, receivedMs }) => ({
      offsetMs: serverMs - (sentMs + receivedMs) / 2,
      errorMs: (receivedMs - sentMs) / 2,
    }))
  const [first, ...rest] = offsets
  if (first === undefined)
    throw new RangeError('exchanges holds at least one that came back after it was sent; got none')
  return rest.reduce((best, next) => (next.errorMs < best.errorMs ? next : best), first)
}
