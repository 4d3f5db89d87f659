/** Tries of unknown links that one address may make in a window. A meeting room shares one address, so only misses count. */
export const missesAllowed = 20
export const windowMs = 10 * 60_000
/** Addresses remembered at most; beyond it the oldest is forgotten. */
const addressLimit = 10_000

export interface Throttle {
  isBlocked(address: string): boolean
  countMiss(address: string): void
}

/**
 * Slows down whoever tries out invitation links.
 * @param now milliseconds by a clock that only goes on: set back by hours, another would keep a hall out for as long
 */
export function createThrottle(now: () => number): Throttle {
  const misses = new Map<string, { count: number; readonly since: number }>()
  const recent = (address: string) => {
    const found = misses.get(address)
    if (found !== undefined && now() - found.since < windowMs) return found
    misses.delete(address)
    return undefined
  }
  return {
    isBlocked: (address) => (recent(address)?.count ?? 0) >= missesAllowed,
    countMiss: (address) => {
      const entry = recent(address) ?? { count: 0, since: now() }
      entry.count += 1
      misses.set(address, entry)
      const oldest = misses.keys().next()
      if (misses.size > addressLimit && !oldest.done) misses.delete(oldest.value)
    },
  }
}
