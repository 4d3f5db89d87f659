import { seriesFrequenciesHz } from '@/lib/outcomes/series-result.ts'
import type { FrequencyHz } from '@/lib/units/frequencies.ts'
import { across } from './plot.tsx'

const octaves = Math.log2(8000 / 250)
/** Room at both ends for what stands beside the first and the last frequency. */
const rim = 0.05

export const frequencyX = (frequency: FrequencyHz): number =>
  across(rim + (1 - 2 * rim) * (Math.log2(frequency / 250) / octaves))

export const frequencyTicks = (textOf: (hz: number) => string) =>
  seriesFrequenciesHz.map((frequency) => ({ at: frequencyX(frequency), text: textOf(frequency) }))
