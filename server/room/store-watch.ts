import type { Store } from '../store/store.ts'
import { limits } from './limits.ts'

interface WatchParts {
  readonly store: Pick<Store, 'tryWriting'>
  /** Something can be stored again, so long after the first failure. */
  back(awayMs: number): void
}

/**
 * Whether this process can store anything. After an outage it tries to write, until that succeeds; nobody is let in before,
 * or every page would come back, send its edits again and fail again, several times a second.
 */
export class StoreWatch {
  private readonly parts: WatchParts
  private awaySinceMs: number | undefined
  private backMs = Number.NEGATIVE_INFINITY
  private timer: NodeJS.Timeout | undefined
  private closed = false

  constructor(parts: WatchParts) {
    this.parts = parts
  }

  get isAway(): boolean {
    return this.awaySinceMs !== undefined
  }

  /** What was to be stored was not. */
  failed(): void {
    if (this.closed || this.isAway) return
    this.awaySinceMs = performance.now()
    // A small trial may pass where a large edit fails: who fails again at once waits a little longer.
    const again = this.awaySinceMs - this.backMs < limits.storeCalmMs
    this.later(again ? limits.storeRetryMs : 0)
  }

  close(): void {
    this.closed = true
    clearTimeout(this.timer)
  }

  private later(ms: number): void {
    if (this.closed) return
    this.timer = setTimeout(() => this.attempt(), ms)
    this.timer.unref()
  }

  private attempt(): void {
    this.parts.store.tryWriting().then(
      () => this.comeBack(),
      () => this.later(limits.storeRetryMs),
    )
  }

  private comeBack(): void {
    if (this.awaySinceMs === undefined) return
    this.backMs = performance.now()
    const awayMs = Math.round(this.backMs - this.awaySinceMs)
    this.awaySinceMs = undefined
    this.parts.back(awayMs)
  }
}
