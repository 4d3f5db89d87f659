import type { LevelBand } from '@/app/audiogram/chart-intervals.tsx'
import { forecastBand } from '@/lib/forecast/band.ts'
import type { Forecast } from '@/lib/forecast/forecast.ts'
import type { Ear } from '@/lib/units/frequencies.ts'

/** The forecast as a band for the audiogram chart: 80 % interval and middle, in dB HL over Hz. */
export const forecastLevelBand = (ear: Ear, forecast: Forecast): LevelBand => ({
  id: `forecast.${ear}`,
  kind: 'forecast',
  ear,
  limits: forecastBand(ear, forecast).points.map(({ frequency, low, expected, high }) => ({
    hz: frequency,
    low,
    high,
    middle: expected,
  })),
})
