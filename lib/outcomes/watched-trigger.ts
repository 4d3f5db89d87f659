import normalCdf from '@stdlib/stats-base-dists-normal-cdf'
import { type Bounds, difference, exactly } from '../audiometry/bounds.ts'
import type { FrequencyHz } from '../units/frequencies.ts'
import {
  type BandValue,
  bandValue,
  inBand,
  isGain,
  type Measured,
  measuredAt,
  measuredValue,
  neededIn,
  valueDifference,
  type WatchedMeasure,
} from './band-value.ts'
import type { EarCourse, EarMeasured, VisitMeasured } from './ear-course.ts'
import type { JudgedLevels, NotJudged, Verdict } from './verdict.ts'

type Watched = JudgedLevels | NotJudged

/** What a contingency watches: a change against a reference, or a limit of its own. */
export interface WatchedTrigger {
  readonly measure: WatchedMeasure
  readonly from: FrequencyHz
  readonly to: FrequencyHz
  readonly change: 'falls-by' | 'rises-by' | 'is-below' | 'is-above'
  /** dB, or dB HL for the limit of a threshold */
  readonly amountDb: number
  readonly reference: 'before-surgery' | 'first-fitting' | 'best-so-far' | 'forecast' | 'other-ear' | 'none'
}

/** Probability that is as good as certain, in either direction. Common practice, no source. */
export const sureProbability = 0.95

/**
 * Whether what a trigger waits for has happened at a visit, given how well thresholds repeat.
 *
 * The true change is taken as normal about the measured one, with the standard deviation of two such measurements and no
 * opinion beforehand: P(true >= limit) = Phi((measured - limit) / SD). From 95 % on it is met, up to 5 % it is not; in
 * between nobody can tell. Over the band the same frequencies count on both sides: its octaves and ends have to be
 * there, others help where both have them.
 *
 * What it cannot know: errors that several thresholds share; that the best of several visits is best by luck too, so a
 * fall against the best so far is a little overstated.
 * @param index of the visit in the course
 * @throws RangeError when there is no such visit
 * Source of the uncertainties: ISO 8253-1:2010, A.3.2. Checked by: tests/published/watched-trigger.test.ts
 */
export function watchedAt(trigger: WatchedTrigger, course: EarCourse, index: number): Watched {
  const at = course.visits[index]
  if (at === undefined) throw new RangeError(`visit ${index} is not one of ${course.visits.length}`)
  const { measure, from, to } = trigger
  const measured = measuredAt(measure, at.ear, course.before, inBand(from, to))
  const missing = neededIn(from, to).filter((frequency) => !measured.includes(frequency))
  if (missing.length > 0) return { kind: 'absent', reason: 'not-measured', missing }
  if (trigger.reference === 'none')
    return judgedLimit(trigger, bandValue(measure, at.ear, course.before, measured), measured)
  return judgedChange(trigger, course, at, measured)
}

function judgedLimit(
  { change, amountDb }: WatchedTrigger,
  of: BandValue,
  frequencies: readonly FrequencyHz[],
): JudgedLevels {
  const { value, sdDb } = measuredValue(of)
  const limit = exactly(amountDb)
  const beyond = change === 'is-below' || change === 'falls-by' ? difference(limit, value) : difference(value, limit)
  return judged({ changeDb: beyond, limitDb: 0, sdDb, value, frequencies })
}

/** An occasion that a change is held against. */
interface Reference {
  readonly ear: EarMeasured
  readonly before: EarMeasured
  readonly visit?: string
}

function judgedChange(
  trigger: WatchedTrigger,
  course: EarCourse,
  at: VisitMeasured,
  measured: readonly FrequencyHz[],
): Watched {
  const { measure, from, to, reference } = trigger
  const absent: NotJudged = { kind: 'absent', reason: 'no-reference', missing: [] }
  if (reference === 'forecast') return againstForecast(trigger, course, at, measured) ?? absent
  const against = referenceOf(trigger, course, at)
  if (against === undefined) return absent
  const there = measuredAt(measure, against.ear, against.before, measured)
  const missing = neededIn(from, to).filter((frequency) => !there.includes(frequency))
  if (missing.length > 0) return { ...absent, missing }
  const now = bandValue(measure, at.ear, course.before, there)
  const then = bandValue(measure, against.ear, against.before, there)
  const { visit } = against
  const { value } = measuredValue(then)
  return judgedAgainst(trigger, measuredValue(now).value, measuredValue(valueDifference(now, then)), there, {
    value,
    ...(visit === undefined ? {} : { visit }),
  })
}

function judgedAgainst(
  { change, amountDb }: WatchedTrigger,
  value: Bounds,
  { value: rise, sdDb }: Measured,
  frequencies: readonly FrequencyHz[],
  reference: NonNullable<JudgedLevels['reference']>,
): JudgedLevels {
  const changeDb = change === 'falls-by' ? difference(exactly(0), rise) : rise
  return judged({ changeDb, limitDb: amountDb, sdDb, value, reference, frequencies })
}

function againstForecast(
  trigger: WatchedTrigger,
  { forecast, before }: EarCourse,
  { ear }: VisitMeasured,
  measured: readonly FrequencyHz[],
): Watched | undefined {
  const { measure, from, to } = trigger
  const name =
    measure === 'aided-threshold' ? 'aidedThreshold' : measure === 'effective-gain' ? 'effectiveGain' : undefined
  if (forecast === undefined || name === undefined) return undefined
  const expected = new Map(
    forecast.flatMap((at) => (at[name] === undefined ? [] : [[at.frequency, at[name]] as const])),
  )
  const there = measured.filter((frequency) => expected.has(frequency))
  const missing = neededIn(from, to).filter((frequency) => !there.includes(frequency))
  if (missing.length > 0) return { kind: 'absent', reason: 'no-reference', missing }
  const now = measuredValue(bandValue(measure, ear, before, there))
  const mean = there.reduce((sum, frequency) => sum + (expected.get(frequency) ?? 0), 0) / there.length
  const rise = { value: difference(now.value, exactly(mean)), sdDb: now.sdDb }
  return judgedAgainst(trigger, now.value, rise, there, { value: exactly(mean) })
}

function referenceOf(trigger: WatchedTrigger, course: EarCourse, at: VisitMeasured): Reference | undefined {
  const { before, visits } = course
  const earlier = visits.slice(0, visits.indexOf(at))
  switch (trigger.reference) {
    case 'before-surgery':
      return { ear: before, before }
    case 'first-fitting': {
      const first = earlier.find(({ isFirstFitting }) => isFirstFitting)
      return first && { ear: first.ear, before, visit: first.visit }
    }
    case 'best-so-far': {
      const best = bestOf(trigger, before, earlier)
      return best && { ear: best.ear, before, visit: best.visit }
    }
    case 'other-ear':
      return otherEarOf(trigger, course, [...earlier, at])
    default:
      return undefined
  }
}

/** Of earlier visits, the one whose mean over the band is best; visits without a number there do not count. */
function bestOf(
  { measure, from, to }: WatchedTrigger,
  before: EarMeasured,
  earlier: readonly VisitMeasured[],
): VisitMeasured | undefined {
  const needed = neededIn(from, to)
  const sign = isGain(measure) ? -1 : 1
  const ranked = earlier.flatMap((at) => {
    if (measuredAt(measure, at.ear, before, needed).length < needed.length) return []
    const { value } = measuredValue(bandValue(measure, at.ear, before, needed))
    return value.low === value.high ? [{ at, worth: sign * value.low }] : []
  })
  return ranked.reduce<(typeof ranked)[number] | undefined>(
    (best, one) => (best === undefined || one.worth < best.worth ? one : best),
    undefined,
  )?.at
}

/** The other ear as it was measured last, until this visit. */
function otherEarOf(
  { measure, from, to }: WatchedTrigger,
  { otherBefore }: EarCourse,
  until: readonly VisitMeasured[],
): Reference | undefined {
  const needed = neededIn(from, to)
  const isThere = (ear: EarMeasured) => measuredAt(measure, ear, otherBefore, needed).length === needed.length
  const last = until.findLast(({ otherEar }) => isThere(otherEar))
  if (last !== undefined) return { ear: last.otherEar, before: otherBefore, visit: last.visit }
  return isThere(otherBefore) ? { ear: otherBefore, before: otherBefore } : undefined
}

function judged({
  limitDb,
  ...of
}: Omit<JudgedLevels, 'kind' | 'of' | 'verdict' | 'probability'> & { readonly limitDb: number }): JudgedLevels {
  const beyond = (changeDb: number) => probabilityBeyond(changeDb, limitDb, of.sdDb)
  const probability = { low: beyond(of.changeDb.low), high: beyond(of.changeDb.high) }
  return { kind: 'judged', of: 'levels', verdict: verdictOf(probability), probability, ...of }
}

/** Without an error of measurement the measured change is the true one. */
function probabilityBeyond(changeDb: number, limitDb: number, sdDb: number): number {
  if (!Number.isFinite(changeDb) || sdDb === 0) return changeDb >= limitDb ? 1 : 0
  return normalCdf((changeDb - limitDb) / sdDb, 0, 1)
}

function verdictOf({ low, high }: JudgedLevels['probability']): Verdict {
  if (low >= sureProbability) return 'met'
  return high <= 1 - sureProbability ? 'not-met' : 'cannot-tell'
}
