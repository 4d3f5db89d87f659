/** Where two values of the same make first differ, and what stands there in each. */
export interface Difference {
  /** as in `byFrequency.3.aidedThreshold.value` */
  readonly at: string
  readonly was: string
  readonly is: string
}

type SameNumber = (was: number, is: number) => boolean

/**
 * Compares plain values field by field.
 * @param isSame when two numbers count as equal; exactly, unless given
 */
export function firstDifference(
  was: unknown,
  is: unknown,
  isSame: SameNumber = (a, b) => a === b,
  path: readonly string[] = [],
): Difference | undefined {
  if (typeof was === 'number' && typeof is === 'number' && isSame(was, is)) return undefined
  if (!isObject(was) || !isObject(is))
    return was === is ? undefined : { at: path.join('.'), was: shortText(was), is: shortText(is) }
  for (const key of new Set([...Object.keys(was), ...Object.keys(is)])) {
    const found = firstDifference(was[key], is[key], isSame, [...path, key])
    if (found !== undefined) return found
  }
  return undefined
}

/**
 * Equal within one step of numbers that were rounded to two decimals: the last bit of a logarithm may differ between two
 * machines, and then a rounding.
 */
export const withinRounding: SameNumber = (a, b) => Math.abs(a - b) <= 0.0101 + 1e-9 * Math.abs(b)

const isObject = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === 'object' && value !== null

const shortText = (value: unknown): string => (value === undefined ? 'nothing' : JSON.stringify(value).slice(0, 80))
