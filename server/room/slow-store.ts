import type { Meter } from '../metrics/meter.ts'
import { limits } from './limits.ts'

/**
 * A meter that tells the log when storing takes so long that people see their edits wait: nothing is lost and nothing is
 * shown early, but whoever runs the server should look at the disk. Told once in a while, or the log would be the load.
 */
export function tellingSlowness(meter: Meter, log: (event: 'store-slow', facts: { tookMs: number }) => void): Meter {
  let quietUntilMs = Number.NEGATIVE_INFINITY
  return {
    ...meter,
    stored: (updates, seconds) => {
      meter.stored(updates, seconds)
      const nowMs = performance.now()
      if (seconds * 1000 < limits.slowStoreMs || nowMs < quietUntilMs) return
      quietUntilMs = nowMs + limits.slowStoreQuietMs
      log('store-slow', { tookMs: Math.round(seconds * 1000) })
    },
  }
}
