import normalCdf from '@stdlib/stats-base-dists-normal-cdf'
import { twoSidedZ } from './binomial-interval.ts'
import { requireCount, requireOpenUnit } from './counts.ts'
import { requireScore, type ScoreMethod, type WordScore } from './word-score.ts'

export const criticalDifferenceMethod: ScoreMethod = {
  id: 'thornton-raffin-1978',
  source: 'Thornton and Raffin, J Speech Hear Res 21:507-518, 1978 (angular transformation of Freeman and Tukey)',
  status: 'from memory, unconfirmed',
  reservation:
    'Carney and Schlauch, J Speech Lang Hear Res 50:1203-1209, 2007 (confirmed): by simulation 23 % of the 1978 entries move, none by more than one word',
}

/** Scores of a second list that are not significantly different from a first one. */
export interface CriticalRange {
  /** Items right in the second list, both inclusive. */
  readonly lowest: number
  readonly highest: number
  /** Length of the second list. */
  readonly presented: number
  readonly confidence: number
  readonly method: ScoreMethod
}

/**
 * Critical range of a second score: the scores of a list of `presented` items that cannot be told apart from `first`.
 * @param first score of the first list
 * @param presented length of the second list; that of the first when absent
 * @param confidence between 0 and 1 exclusive; 0.95 is the printed table
 * @throws RangeError naming the argument, its value and its domain
 * Source: `criticalDifferenceMethod`. Checked by: tests/published/thornton-raffin-1978.test.ts
 */
export function criticalRange(first: WordScore, presented = first.presented, confidence = 0.95): CriticalRange {
  requireScore('first', first)
  requireCount('presented', presented, 1, 1_000_000)
  const limit = twoSidedZ(requireOpenUnit('confidence', confidence))
  const angle = angleOf(first)
  const reach = limit * differenceError(first.presented, presented)
  const within = (correct: number) => Math.abs(angleOf({ correct, presented }) - angle) <= reach
  const nearest = Math.round((first.correct / first.presented) * presented)
  return {
    lowest: furthest(within, nearest, 0),
    highest: furthest(within, nearest, presented),
    presented,
    confidence,
    method: criticalDifferenceMethod,
  }
}

export interface ScoreComparison {
  /** Normal deviate of the difference, positive when the second score is higher. */
  readonly z: number
  /** Two-sided probability of a difference at least this large by chance. */
  readonly pValue: number
  readonly verdict: 'higher' | 'lower' | 'no-significant-difference'
  /**
   * The verdict would turn if the second score were one word nearer to or further from the first: within the reach of
   * the 2007 revision, so say "borderline".
   */
  readonly borderline: boolean
  /** Range of the second score that is not significantly different from the first. */
  readonly range: CriticalRange
}

/**
 * Compares two word scores of the same material and condition, of equal or unequal list lengths.
 * @param first the earlier score; @param second the later one, called higher or lower than the first
 * @param confidence between 0 and 1 exclusive
 * @throws RangeError naming the argument, its value and its domain
 * Source: `criticalDifferenceMethod`. Checked by: tests/published/thornton-raffin-1978.test.ts
 */
export function compareScores(first: WordScore, second: WordScore, confidence = 0.95): ScoreComparison {
  requireScore('second', second)
  const range = criticalRange(first, second.presented, confidence)
  const z = (angleOf(second) - angleOf(first)) / differenceError(first.presented, second.presented)
  const verdict =
    second.correct > range.highest ? 'higher' : second.correct < range.lowest ? 'lower' : 'no-significant-difference'
  return { z, pValue: 2 * normalCdf(-Math.abs(z), 0, 1), verdict, borderline: isBorderline(second, range), range }
}

/**
 * Freeman and Tukey's angle of a score, 0 to pi; its variance is about 1 / (presented + 1) whatever the true score.
 * Checked by: tests/published/thornton-raffin-1978.test.ts
 */
export function angularTransform(score: WordScore): number {
  return angleOf(requireScore('score', score))
}

function angleOf({ correct, presented }: WordScore): number {
  const length = presented + 1
  return Math.asin(Math.sqrt(correct / length)) + Math.asin(Math.sqrt((correct + 1) / length))
}

const differenceError = (first: number, second: number): number => Math.sqrt(1 / (first + 1) + 1 / (second + 1))

/** Walks from a count that is within the range towards `end` and stops at the last one that still is. */
function furthest(within: (correct: number) => boolean, from: number, end: number): number {
  const step = Math.sign(end - from)
  let last = from
  while (last !== end && within(last + step)) last += step
  return last
}

function isBorderline({ correct }: WordScore, { lowest, highest, presented }: CriticalRange): boolean {
  const reachesLow = lowest > 0 && (correct === lowest || correct === lowest - 1)
  const reachesHigh = highest < presented && (correct === highest || correct === highest + 1)
  return reachesLow || reachesHigh
}
