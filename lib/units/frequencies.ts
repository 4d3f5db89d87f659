import * as z from 'zod/mini'

/**
 * Audiometric frequencies in Hz, 125 Hz to 16 kHz: the conventional range of ISO 8253-1 with its half-octaves,
 * and the extended range above 8 kHz (common practice; reference levels in ISO 389-5).
 */
export const audiometricFrequenciesHz = [
  125, 250, 500, 750, 1000, 1500, 2000, 3000, 4000, 5000, 6000, 8000, 9000, 10000, 11200, 12500, 14000, 16000,
] as const

export type FrequencyHz = (typeof audiometricFrequenciesHz)[number]

/** Parses a frequency of the audiometric list. */
export const FrequencyHz = z.literal(audiometricFrequenciesHz)

export const isFrequencyHz = (value: number): value is FrequencyHz =>
  (audiometricFrequenciesHz as readonly number[]).includes(value)

export const Ear = z.enum(['right', 'left'])
export type Ear = z.infer<typeof Ear>

export const otherEar = (ear: Ear): Ear => (ear === 'right' ? 'left' : 'right')
