import normalCdf from '@stdlib/stats-base-dists-normal-cdf'
import normalQuantile from '@stdlib/stats-base-dists-normal-quantile'
import type { FrequencyHz } from '../units/frequencies.ts'
import { outsideDomain, requireDbHl, requireWithin } from './domain.ts'
import { iso7029Slopes2000, iso7029Table2000 } from './iso-7029-2000.ts'
import { type Iso7029Row2017, iso7029Table2017 } from './iso-7029-2017.ts'
import type { Provenance } from './provenance.ts'

export type Sex = 'male' | 'female'
export type Iso7029Edition = '2017' | '2000'

export const iso7029FrequenciesHz = [
  125, 250, 500, 750, 1000, 1500, 2000, 3000, 4000, 6000, 8000,
] as const satisfies readonly FrequencyHz[]
export type Iso7029FrequencyHz = (typeof iso7029FrequenciesHz)[number]

export const isIso7029Frequency = (frequency: FrequencyHz): frequency is Iso7029FrequencyHz =>
  (iso7029FrequenciesHz as readonly number[]).includes(frequency)

export interface Iso7029EditionInfo extends Provenance {
  readonly edition: Iso7029Edition
  readonly youngest: number
  /** Up to this age the edition is normative at every frequency, in years. */
  readonly normativeTo: number
  /** Up to this age the computation is offered, marked as informative or extrapolated, in years. */
  readonly oldest: number
}

export const iso7029Editions: { readonly [E in Iso7029Edition]: Iso7029EditionInfo & { readonly edition: E } } = {
  '2017': {
    edition: '2017',
    youngest: 18,
    normativeTo: 70,
    oldest: 80,
    source: 'ISO 7029:2017, Tables 1 to 5',
    status: 'confirmed',
    reservation: 'the coefficients were seen in one public transcription',
  },
  '2000': {
    edition: '2000',
    youngest: 18,
    normativeTo: 70,
    oldest: 90,
    source: 'ISO 7029:2000, Tables 1 and 2 (withdrawn)',
    status: 'from memory, unconfirmed',
    reservation: 'the medians, except at 750 Hz, were seen in a public table',
  },
}

export interface AgeGroup {
  readonly edition: Iso7029Edition
  readonly sex: Sex
  /** Years, 18 to the oldest age of the edition. */
  readonly age: number
}

/** Distribution of thresholds of otologically normal people of one age, sex and frequency, in dB HL. */
export interface AgeNorm {
  readonly edition: Iso7029EditionInfo
  readonly frequency: Iso7029FrequencyHz
  /** Deviation from the median at 18 years, whose reference is 0 dB HL. */
  readonly median: number
  readonly spreadWorse: number
  readonly spreadBetter: number
  /**
   * `informative`: the edition prints it for information only (2017: above 70 years from 3 kHz up);
   * `extrapolated`: beyond the ages of the edition.
   */
  readonly validity: 'normative' | 'informative' | 'extrapolated'
}

/**
 * The age norm of ISO 7029 at one frequency.
 *
 * Beyond 80 years the 2017 polynomials of the spread turn negative (men, 6 and 8 kHz: from 82 years), so that edition
 * refuses older ages; the formulas of 2000 stay usable and are marked as extrapolated from 70 to 90 years.
 * @throws RangeError when the age is outside 18 to 80 (2017) or 18 to 90 years (2000)
 * Sources: `iso7029Editions`. Checked by: tests/published/iso-7029.test.ts
 */
export function ageNorm({ edition, sex, age }: AgeGroup, frequency: Iso7029FrequencyHz): AgeNorm {
  const info = iso7029Editions[edition]
  requireWithin('age', age, info.youngest, info.oldest, 'years')
  if (!isIso7029Frequency(frequency))
    throw outsideDomain('frequency', frequency, `one of ${iso7029FrequenciesHz.join(', ')} Hz`)
  const u = age - 18
  const distribution = edition === '2017' ? of2017(sex, u, frequency) : of2000(sex, u, frequency)
  return { edition: info, frequency, ...distribution, validity: validityOf(edition, age, frequency) }
}

type Distribution = Pick<AgeNorm, 'median' | 'spreadWorse' | 'spreadBetter'>

function of2017(sex: Sex, u: number, frequency: Iso7029FrequencyHz): Distribution {
  const row: Iso7029Row2017 = iso7029Table2017[sex][frequency]
  return {
    median: row.median.a * u ** row.median.b,
    spreadWorse: polynomial(row.spreadWorse, u),
    spreadBetter: polynomial(row.spreadBetter, u),
  }
}

function of2000(sex: Sex, u: number, frequency: Iso7029FrequencyHz): Distribution {
  const { alpha, worse, better } = iso7029Table2000[sex][frequency]
  const median = alpha * u * u
  return {
    median,
    spreadWorse: worse + iso7029Slopes2000.worse * median,
    spreadBetter: better + iso7029Slopes2000.better * median,
  }
}

const polynomial = (coefficients: readonly number[], u: number): number =>
  coefficients.reduceRight((sum, coefficient) => sum * u + coefficient, 0)

function validityOf(edition: Iso7029Edition, age: number, frequency: Iso7029FrequencyHz): AgeNorm['validity'] {
  if (age <= iso7029Editions[edition].normativeTo) return 'normative'
  if (edition === '2000') return 'extrapolated'
  return frequency >= 3000 ? 'informative' : 'normative'
}

/**
 * The threshold that a share of the group does not exceed, in dB HL: 0.9 leaves the worse-hearing tenth above it.
 * @param share between 0 and 1, both exclusive
 * @throws RangeError when `share` is outside that range
 */
export function thresholdAtShare(norm: AgeNorm, share: number): number {
  if (!(share > 0 && share < 1)) throw outsideDomain('share', share, 'between 0 and 1, both exclusive')
  const z = deviateOf(share)
  return norm.median + z * (z >= 0 ? norm.spreadWorse : norm.spreadBetter)
}

/** The same few shares are asked for at every frequency, and a quantile costs more than all the rest. */
const deviates = new Map<number, number>()

function deviateOf(share: number): number {
  const known = deviates.get(share) ?? normalQuantile(share, 0, 1)
  if (deviates.size < mostDeviates) deviates.set(share, known)
  return known
}

const mostDeviates = 100

/**
 * The percentage of the group that hears as well as `level` or better: 50 at the median, above 50 when worse.
 * @param level dB HL, -20 to 130
 * @throws RangeError when `level` is outside that range
 */
export function percentileOf(norm: AgeNorm, level: number): number {
  const deviation = requireDbHl('level', level) - norm.median
  return 100 * normalCdf(deviation, 0, deviation >= 0 ? norm.spreadWorse : norm.spreadBetter)
}
