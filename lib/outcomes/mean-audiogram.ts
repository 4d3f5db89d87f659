import type { Audiogram } from '../audiometry/thresholds.ts'
import type { FrequencyHz } from '../units/frequencies.ts'
import { type SeriesMean, seriesMean } from './series-mean.ts'
import { type EarResult, seriesFrequenciesHz } from './series-result.ts'

export const meanRoutes = ['air-before', 'bone-before', 'aided-after', 'bone-after'] as const
export type MeanRoute = (typeof meanRoutes)[number]

export interface MeanAudiogram {
  readonly route: MeanRoute
  readonly byFrequency: readonly (SeriesMean & { readonly frequency: FrequencyHz })[]
}

const audiogramOf: { readonly [R in MeanRoute]: (result: EarResult) => Audiogram | undefined } = {
  'air-before': ({ before }) => before?.air,
  'bone-before': ({ before }) => before?.bone,
  'aided-after': ({ after }) => after?.aided,
  'bone-after': ({ after }) => after?.bone,
}

/** Mean thresholds of a route in dB HL with their 95 % intervals; "no response" is counted and not averaged. */
export function meanAudiogram(route: MeanRoute, results: readonly EarResult[]): MeanAudiogram {
  const audiograms = results.map(audiogramOf[route])
  const byFrequency = seriesFrequenciesHz.map((frequency) => ({ frequency, ...meanAt(audiograms, frequency) }))
  return { route, byFrequency }
}

function meanAt(audiograms: readonly (Audiogram | undefined)[], frequency: FrequencyHz): SeriesMean {
  const levels: number[] = []
  let noResponse = 0
  for (const audiogram of audiograms) {
    const threshold = audiogram?.get(frequency)
    if (threshold?.kind === 'heard') levels.push(threshold.level)
    else if (threshold?.kind === 'no-response') noResponse++
  }
  return seriesMean(levels, { noResponse, missing: audiograms.length - levels.length - noResponse })
}
