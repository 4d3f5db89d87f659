import type { FrequencyHz } from '../units/frequencies.ts'
import { asDbGain, type DbGain } from '../units/levels.ts'
import { type Bounds, boundsOf, difference } from './bounds.ts'
import { outsideDomain, requireAudiogram, requireFrequency } from './domain.ts'
import type { Provenance } from './provenance.ts'
import type { Audiogram, Route, Threshold } from './thresholds.ts'

export interface Repeatability extends Provenance {
  /** Standard uncertainty of one threshold from repeated determination, in dB. */
  readonly standardUncertainty: number
  /** Standard deviation of the difference of two such thresholds, in dB. */
  readonly sdOfDifference: DbGain
  /** Half-width of the range that holds 95 % of the differences by chance, in dB. */
  readonly chanceRange: DbGain
}

const iso8253: Provenance = { source: 'ISO 8253-1:2010, Annex A, A.3.2', status: 'confirmed' }
const soundField: Provenance = {
  source: 'ISO 8253-1:2010, Annex A, A.3.2, air conduction',
  status: 'common practice, no source',
  reservation: 'the values of earphone audiometry are used for sound-field thresholds too',
}

/** Standard normal quantile of 0.975. */
const z975 = 1.959963984540054

/**
 * How well a threshold of this route and frequency repeats.
 * @throws RangeError when `frequency` is not an audiometric frequency
 * Checked by: tests/published/iso-8253-1.test.ts
 */
export function repeatability(route: Route, frequency: FrequencyHz): Repeatability {
  requireFrequency('frequency', frequency)
  return byRoute[route][frequency <= 4000 ? 'upTo4000' : 'above4000']
}

function chanceOf(u: number): Pick<Repeatability, 'sdOfDifference' | 'chanceRange'> {
  const sd = u * Math.SQRT2
  return { sdOfDifference: asDbGain(sd), chanceRange: asDbGain(z975 * sd) }
}

const withUncertainty = (from: Provenance, u: number): Repeatability => ({
  ...from,
  standardUncertainty: u,
  ...chanceOf(u),
})

interface ByRange {
  readonly upTo4000: Repeatability
  readonly above4000: Repeatability
}

const airLike = (from: Provenance): ByRange => ({
  upTo4000: withUncertainty(from, 2.5),
  above4000: withUncertainty(from, 4),
})

const byRoute: Readonly<Record<Route, ByRange>> = {
  air: airLike(iso8253),
  bone: { upTo4000: withUncertainty(iso8253, 3), above4000: withUncertainty(iso8253, 5) },
  'sound-field': airLike(soundField),
  aided: airLike(soundField),
}

export interface MeasuredPoint {
  readonly route: Route
  readonly frequency: FrequencyHz
}

/**
 * Repeatability of the mean of several thresholds of one test, taken as independent (ISO 8253-1, A.2: uncorrelated
 * contributions). An error common to all of them, such as the fit of the earphone, is not in it.
 * @throws RangeError when `points` is empty or a frequency is not on the list
 */
export function repeatabilityOfMean(points: readonly MeasuredPoint[]): Repeatability {
  if (points.length === 0) throw outsideDomain('points', 'empty', 'at least one measured point')
  const u = Math.sqrt(sumOfSquares(points)) / points.length
  return withUncertainty(independence, u)
}

/**
 * Repeatability of a difference of two means of one test, such as an air-bone gap or an effective gain.
 * @throws RangeError when either list is empty or a frequency is not on the list
 */
export function repeatabilityOfGap(
  minuend: readonly MeasuredPoint[],
  subtrahend: readonly MeasuredPoint[],
): Repeatability {
  const of = repeatabilityOfMean(minuend).standardUncertainty
  const minus = repeatabilityOfMean(subtrahend).standardUncertainty
  const u = Math.hypot(of, minus)
  return withUncertainty(independence, u)
}

const independence: Provenance = {
  source: 'ISO 8253-1:2010, Annex A, A.3.2, combined as independent',
  status: 'common practice, no source',
  reservation: 'errors common to several frequencies are not included',
}

function sumOfSquares(points: readonly MeasuredPoint[]): number {
  return points.reduce((sum, point) => sum + repeatability(point.route, point.frequency).standardUncertainty ** 2, 0)
}

export type ChangeVerdict = 'better' | 'worse' | 'within test-retest error' | 'cannot tell'

/**
 * Whether a change of level exceeds what two tests of an unchanged ear differ by chance.
 * @param change later minus earlier level, as bounds in dB: positive is worse
 * @returns 'cannot tell' when "no response" leaves more than one answer possible
 */
export function judgeChange(change: Bounds, { chanceRange }: Pick<Repeatability, 'chanceRange'>): ChangeVerdict {
  if (change.low > chanceRange) return 'worse'
  if (change.high < -chanceRange) return 'better'
  const within = change.low >= -chanceRange && change.high <= chanceRange
  return within ? 'within test-retest error' : 'cannot tell'
}

export interface ThresholdChange {
  readonly frequency: FrequencyHz
  readonly change: Bounds
  readonly repeatability: Repeatability
  readonly verdict: ChangeVerdict
}

/**
 * The change at each frequency that both tests have, from the lowest frequency up.
 * @throws RangeError when an audiogram is out of domain
 */
export function thresholdChanges(
  route: Route,
  { before, after }: { readonly before: Audiogram; readonly after: Audiogram },
): readonly ThresholdChange[] {
  requireAudiogram('before', before)
  requireAudiogram('after', after)
  const frequencies = [...before.keys()].filter((frequency) => after.has(frequency)).toSorted((a, b) => a - b)
  return frequencies.flatMap((frequency) => changeAt(route, frequency, before.get(frequency), after.get(frequency)))
}

function changeAt(
  route: Route,
  frequency: FrequencyHz,
  before: Threshold | undefined,
  after: Threshold | undefined,
): readonly ThresholdChange[] {
  const earlier = boundsOf(before)
  const later = boundsOf(after)
  if (earlier === undefined || later === undefined) return []
  const chance = repeatability(route, frequency)
  const change = difference(later, earlier)
  return [{ frequency, change, repeatability: chance, verdict: judgeChange(change, chance) }]
}
