/** Lowest, middle and highest of some values, in their own unit. */
export interface Spread {
  readonly low: number
  readonly median: number
  readonly high: number
}

/** The spread of values in any order; of an even number the median lies half-way between the middle two. Undefined of none. */
export function spreadOf(values: readonly number[]): Spread | undefined {
  const sorted = [...values].sort((a, b) => a - b)
  const low = sorted[0]
  const high = sorted.at(-1)
  if (low === undefined || high === undefined) return undefined
  const middle = (sorted.length - 1) / 2
  const median = ((sorted[Math.floor(middle)] as number) + (sorted[Math.ceil(middle)] as number)) / 2
  return { low, median, high }
}
