import { audiometricFrequenciesHz, type FrequencyHz, isFrequencyHz } from '../units/frequencies.ts'
import { asDbHl, type DbHl, hearingLevelRange } from '../units/levels.ts'
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

/** Compared, not parsed by the schema: parsing each level of each audiogram costs ten times as much. */
const { low: lowest, high: highest } = hearingLevelRange

/** @throws RangeError unless `value` is a hearing level of the range of `DbHl` */
export function requireDbHl(argument: string, value: number): DbHl {
  if (value >= lowest && value <= highest) return asDbHl(value)
  throw outsideDomain(argument, value, `a hearing level from ${lowest} to ${highest} dB HL`)
}

/** @throws RangeError unless `value` is on the audiometric list */
export function requireFrequency(argument: string, value: number): FrequencyHz {
  if (isFrequencyHz(value)) return value
  throw outsideDomain(argument, value, `one of ${audiometricFrequenciesHz.join(', ')} Hz`)
}

/** Audiograms whose points are in domain: they never change, and every measure asks again. */
const sound = new WeakSet<Audiogram>()

/**
 * Checks every point of an audiogram, so that nothing computed from it can become NaN.
 * @throws RangeError naming `argument`, the frequency and the value that is out of domain
 */
export function requireAudiogram(argument: string, audiogram: Audiogram): Audiogram {
  if (sound.has(audiogram)) return audiogram
  for (const [frequency, threshold] of audiogram) requireThreshold(argument, frequency, threshold)
  sound.add(audiogram)
  return audiogram
}

/** @throws RangeError naming `argument`, the frequency and the value that is out of domain */
export function requireThreshold(argument: string, frequency: FrequencyHz, threshold: Threshold): void {
  if (!isFrequencyHz(frequency)) requireFrequency(`${argument} frequency`, frequency)
  if (threshold.kind === 'could-not-test') return
  const level = threshold.kind === 'heard' ? threshold.level : threshold.limit
  if (level >= lowest && level <= highest) return
  requireDbHl(`${argument} ${threshold.kind === 'heard' ? 'level' : 'limit'} at ${frequency} Hz`, level)
}
