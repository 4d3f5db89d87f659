import { audiometricFrequenciesHz, type FrequencyHz, isFrequencyHz } from '../units/frequencies.ts'
import { DbHl } from '../units/levels.ts'
import type { Audiogram, Threshold } from './thresholds.ts'

/** The refusal of an argument outside its domain: which argument, what it was, what it may be. */
export function outsideDomain(argument: string, value: unknown, domain: string): RangeError {
  return new RangeError(`${argument} is ${String(value)}, but must be ${domain}`)
}

/** @throws RangeError unless `value` is a finite number from `low` to `high`, both inclusive */
export function requireWithin(argument: string, value: number, low: number, high: number, unit: string): number {
  if (value >= low && value <= high) return value
  throw outsideDomain(argument, value, `from ${low} to ${high} ${unit}`)
}

/** @throws RangeError unless `value` is a hearing level of the range of `DbHl` */
export function requireDbHl(argument: string, value: number): DbHl {
  const parsed = DbHl.safeParse(value)
  if (parsed.success) return parsed.data
  throw outsideDomain(argument, value, 'a hearing level from -20 to 130 dB HL')
}

/** @throws RangeError unless `value` is on the audiometric list */
export function requireFrequency(argument: string, value: number): FrequencyHz {
  if (isFrequencyHz(value)) return value
  throw outsideDomain(argument, value, `one of ${audiometricFrequenciesHz.join(', ')} Hz`)
}

/**
 * Checks every point of an audiogram, so that nothing computed from it can become NaN.
 * @throws RangeError naming `argument`, the frequency and the value that is out of domain
 */
export function requireAudiogram(argument: string, audiogram: Audiogram): Audiogram {
  for (const [frequency, threshold] of audiogram) requireThreshold(argument, frequency, threshold)
  return audiogram
}

function requireThreshold(argument: string, frequency: FrequencyHz, threshold: Threshold): void {
  requireFrequency(`${argument} frequency`, frequency)
  if (threshold.kind === 'heard') requireDbHl(`${argument} level at ${frequency} Hz`, threshold.level)
  if (threshold.kind === 'no-response') requireDbHl(`${argument} limit at ${frequency} Hz`, threshold.limit)
}
