import type { Ear, FrequencyHz } from '../units/frequencies.ts'
import { asDbHl, type DbHl } from '../units/levels.ts'
import type { Forecast } from './forecast.ts'

/** Expected aided threshold with its 80 % interval at one frequency, to be drawn on an audiogram. */
export interface BandPoint {
  readonly frequency: FrequencyHz
  readonly expected: DbHl
  readonly low: DbHl
  readonly high: DbHl
}

/** A frequency at which the expected aided threshold is only known to be at least this. */
export interface BandBound {
  readonly frequency: FrequencyHz
  readonly atLeast: DbHl
}

export interface ForecastBand {
  readonly ear: Ear
  readonly points: readonly BandPoint[]
  readonly bounds: readonly BandBound[]
  readonly weak: boolean
}

/** The forecast as a band over the audiogram; frequencies without a number are not in it. */
export function forecastBand(ear: Ear, { byFrequency, weak }: Forecast): ForecastBand {
  const points: BandPoint[] = []
  const bounds: BandBound[] = []
  for (const { frequency, aidedThreshold } of byFrequency) {
    if (aidedThreshold.kind === 'estimate') {
      const { low, high } = aidedThreshold.interval
      points.push({ frequency, expected: asDbHl(aidedThreshold.value), low: asDbHl(low), high: asDbHl(high) })
    }
    if (aidedThreshold.kind === 'at-least') bounds.push({ frequency, atLeast: asDbHl(aidedThreshold.value) })
  }
  return { ear, points, bounds, weak }
}
