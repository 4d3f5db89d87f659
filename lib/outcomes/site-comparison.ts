import type { CouplingSite } from '../devices/classes.ts'
import type { FrequencyHz } from '../units/frequencies.ts'
import { holmAdjusted } from './holm.ts'
import { welchDifference } from './mean-interval.ts'
import { fewestEars, type SeriesMean, seriesMean } from './series-mean.ts'
import { type EarResult, seriesFrequenciesHz } from './series-result.ts'

export interface SiteDifference {
  readonly frequency: FrequencyHz
  readonly first: SeriesMean
  readonly second: SeriesMean
  /** first less second, dB; null unless each has `fewestEars` */
  readonly difference: {
    readonly value: number
    /** hold at 95 % for all compared frequencies together */
    readonly low: number
    readonly high: number
    /** adjusted for the number of frequencies */
    readonly pAdjusted: number
  } | null
}

export const gainMeasures = ['effective-gain', 'functional-gain'] as const
export type GainMeasure = (typeof gainMeasures)[number]

export interface SiteComparison {
  readonly measure: GainMeasure
  readonly first: CouplingSite
  readonly second: CouplingSite
  readonly nFirst: number
  readonly nSecond: number
  /** frequencies that were compared, and adjusted for */
  readonly compared: number
  readonly byFrequency: readonly SiteDifference[]
}

const significance = 0.05

/**
 * Gain at two coupling sites, frequency by frequency. Whoever was given one site and not the other was chosen by
 * ear and surgeon: a difference is of the series, not of the sites alone.
 * Source: Welch 1947 at each frequency; Holm 1979 over them. Checked by: tests/published/scipy-1-17-series.test.ts
 */
export function compareSites(
  results: readonly EarResult[],
  first: CouplingSite,
  second: CouplingSite,
  measure: GainMeasure,
): SiteComparison {
  const [ofFirst, ofSecond] = [first, second].map((site) =>
    results.filter(({ case: { couplingSite }, after }) => couplingSite === site && after !== undefined),
  ) as [EarResult[], EarResult[]]
  const rows = seriesFrequenciesHz.map((frequency) => ({
    frequency,
    a: gainsAt(ofFirst, frequency, measure),
    b: gainsAt(ofSecond, frequency, measure),
  }))
  const isCompared = ({ a, b }: (typeof rows)[number]) => a.length >= fewestEars && b.length >= fewestEars
  const compared = rows.filter(isCompared)
  const tests = compared.map(({ a, b }) => welchDifference(a, b, 1 - significance / compared.length))
  const adjusted = holmAdjusted(tests.map(({ pValue }) => pValue))
  return {
    measure,
    first,
    second,
    nFirst: ofFirst.length,
    nSecond: ofSecond.length,
    compared: compared.length,
    byFrequency: rows.map((row) => {
      const index = compared.indexOf(row)
      const test = tests[index]
      return {
        frequency: row.frequency,
        first: seriesMean(row.a, { missing: ofFirst.length - row.a.length }),
        second: seriesMean(row.b, { missing: ofSecond.length - row.b.length }),
        difference: test === undefined ? null : { ...limitsOf(test), pAdjusted: adjusted[index] ?? 1 },
      }
    }),
  }
}

const limitsOf = ({ value, low, high }: ReturnType<typeof welchDifference>) => ({ value, low, high })

function gainsAt(results: readonly EarResult[], frequency: FrequencyHz, measure: GainMeasure): readonly number[] {
  return results.flatMap(
    ({ gainDb, functionalGainDb }) => (measure === 'effective-gain' ? gainDb : functionalGainDb).get(frequency) ?? [],
  )
}

/** Spread of the gain between ears, dB, at each frequency: what the size of a study follows from. */
export const gainSpread = (
  results: readonly EarResult[],
  measure: GainMeasure,
): readonly (SeriesMean & { readonly frequency: FrequencyHz })[] =>
  seriesFrequenciesHz.map((frequency) => {
    const gains = gainsAt(results, frequency, measure)
    return { frequency, ...seriesMean(gains, { missing: results.length - gains.length }) }
  })
