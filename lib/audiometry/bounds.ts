import type { Threshold } from './thresholds.ts'

/**
 * What is known of a level or a difference of levels, in dB: it lies from `low` to `high`, both inclusive.
 * A measured value has `low === high`; "no response at 120" is 120 to infinity; the gap of an ear whose bone
 * conduction gave no response has no lower bound.
 */
export interface Bounds {
  readonly low: number
  readonly high: number
}

export const exactly = (value: number): Bounds => ({ low: value, high: value })
export const atLeast = (value: number): Bounds => ({ low: value, high: Number.POSITIVE_INFINITY })

export const isExact = ({ low, high }: Bounds): boolean => low === high

/** Bounds of one threshold in dB HL; nothing when the frequency was not tested or could not be. */
export function boundsOf(threshold: Threshold | undefined): Bounds | undefined {
  if (threshold === undefined || threshold.kind === 'could-not-test') return undefined
  return threshold.kind === 'heard' ? exactly(threshold.level) : atLeast(threshold.limit)
}

/**
 * Bounds of `a - b`. `low` must not be positive infinity in either, which no threshold produces.
 * Means of three are thirds, whose difference misses a limit such as exactly 15 dB by 1e-15: hence the rounding.
 */
export const difference = (a: Bounds, b: Bounds): Bounds => ({
  low: toNanoDb(a.low - b.high),
  high: toNanoDb(a.high - b.low),
})

const toNanoDb = (value: number): number => Math.round(value * 1e9) / 1e9

/** The better (lower) of two levels. */
export const lowerOf = (a: Bounds, b: Bounds): Bounds => ({
  low: Math.min(a.low, b.low),
  high: Math.min(a.high, b.high),
})
/** The worse (higher) of two levels. */
export const higherOf = (a: Bounds, b: Bounds): Bounds => ({
  low: Math.max(a.low, b.low),
  high: Math.max(a.high, b.high),
})

/** true or false when the bounds decide it, undefined when they do not. */
export type Decided = boolean | undefined

export const isAbove = ({ low, high }: Bounds, limit: number): Decided =>
  low > limit ? true : high <= limit ? false : undefined

export const isAtLeast = ({ low, high }: Bounds, limit: number): Decided =>
  low >= limit ? true : high < limit ? false : undefined

export const not = (decided: Decided): Decided => (decided === undefined ? undefined : !decided)

export function both(a: Decided, b: Decided): Decided {
  if (a === false || b === false) return false
  return a === undefined || b === undefined ? undefined : true
}

export const either = (a: Decided, b: Decided): Decided => not(both(not(a), not(b)))
