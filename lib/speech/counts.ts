import { outsideDomain } from '../audiometry/domain.ts'

/** @throws RangeError unless `value` is an integer from `low` to `high`, both inclusive */
export function requireCount(argument: string, value: number, low: number, high = Number.MAX_SAFE_INTEGER): number {
  if (Number.isInteger(value) && value >= low && value <= high) return value
  const domain =
    high === Number.MAX_SAFE_INTEGER ? `an integer of at least ${low}` : `an integer from ${low} to ${high}`
  throw outsideDomain(argument, value, domain)
}

/** @throws RangeError unless `value` is between 0 and 1, both exclusive (a confidence, a significance level, a power) */
export function requireOpenUnit(argument: string, value: number): number {
  if (value > 0 && value < 1) return value
  throw outsideDomain(argument, value, 'between 0 and 1 exclusive')
}

/** @throws RangeError unless `value` is a finite number */
export function requireFinite(argument: string, value: number): number {
  if (Number.isFinite(value)) return value
  throw outsideDomain(argument, value, 'a finite number')
}
