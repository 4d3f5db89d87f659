import { meanSummary } from './mean-interval.ts'

/** With fewer ears an interval is wider than anything it could say, or narrow by chance: none is given. */
export const fewestEars = 5

/** Mean of a series with what is not in it. */
export interface SeriesMean {
  readonly n: number
  /** null without any value */
  readonly mean: number | null
  /** 95 % t interval and SD; null with fewer than `fewestEars` */
  readonly low: number | null
  readonly high: number | null
  readonly sd: number | null
  /** tested, without a response at the audiometer's limit: no number, so not in the mean, which is better than the truth */
  readonly noResponse: number
  /** not tested */
  readonly missing: number
}

/** @param values finite numbers, one a patient */
export function seriesMean(values: readonly number[], { noResponse = 0, missing = 0 } = {}): SeriesMean {
  const n = values.length
  const absent = { n, noResponse, missing, low: null, high: null, sd: null }
  if (n === 0) return { ...absent, mean: null }
  if (n < fewestEars) return { ...absent, mean: values.reduce((sum, value) => sum + value, 0) / n }
  const { value, low, high, sd } = meanSummary(values)
  return { n, mean: value, low, high, sd, noResponse, missing }
}
