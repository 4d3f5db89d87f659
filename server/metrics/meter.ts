/** What the rooms say to whoever counts: metrics.ts, or nobody. */
export interface Meter {
  /** So many updates were stored by one append, which took so long. */
  stored(updates: number, seconds: number): void
  /** @param code of the refusal (lib/board/refusals.ts) */
  refused(code: string): void
  /** The store failed a room. */
  outage(): void
}

export const unmeasured: Meter = { stored: () => undefined, refused: () => undefined, outage: () => undefined }
