/** Allows `perSecond` events for long and `burst` at once. Time comes in as an argument, in milliseconds. */
export class TokenBucket {
  private readonly perSecond: number
  private readonly burst: number
  private tokens: number
  private lastMs: number

  constructor(perSecond: number, burst: number, nowMs: number) {
    this.perSecond = perSecond
    this.burst = burst
    this.tokens = burst
    this.lastMs = nowMs
  }

  /** Takes one; false when there is none left. A clock that jumps back gives nothing. */
  take(nowMs: number): boolean {
    this.refill(nowMs)
    if (this.tokens < 1) return false
    this.tokens -= 1
    return true
  }

  /** Takes so many, on credit where there are fewer but at least one: what was written during an outage comes all at once. */
  spend(count: number): void {
    this.tokens -= count
  }

  /** How long until there is one again, ms; 0 when there is. */
  waitMs(nowMs: number): number {
    this.refill(nowMs)
    return this.tokens >= 1 ? 0 : ((1 - this.tokens) / this.perSecond) * 1000
  }

  private refill(nowMs: number): void {
    this.tokens = Math.min(this.burst, this.tokens + (Math.max(0, nowMs - this.lastMs) / 1000) * this.perSecond)
    this.lastMs = nowMs
  }
}
