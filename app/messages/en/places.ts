import type { FrequencyHz } from '@/lib/units/frequencies.ts'

/** How frequencies are written, by itself for late parts. */
export const frequency = (hz: FrequencyHz): string => (hz < 1000 ? `${hz} Hz` : `${hz / 1000} kHz`)
export const band = (from: FrequencyHz, to: FrequencyHz): string =>
  from >= 1000 || to < 1000
    ? frequency(to).replace(/^[\d.]+/, `${from >= 1000 ? from / 1000 : from} to $&`)
    : `${frequency(from)} to ${frequency(to)}`
