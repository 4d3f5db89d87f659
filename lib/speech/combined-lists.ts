import { outsideDomain } from '../audiometry/domain.ts'
import { type ProportionInterval, wilsonInterval } from './binomial-interval.ts'
import { compareScores } from './critical-difference.ts'
import { requireScore, type WordScore } from './word-score.ts'

export interface CombinedLists {
  readonly score: WordScore
  readonly lists: number
  readonly wilson: ProportionInterval
  /** No two of the lists differ significantly (95 %); otherwise the sum hides a change between them. */
  readonly consistent: boolean
}

/**
 * Several lists of the same material, ear, level and condition as one score: items right and items presented add up.
 * Percentages are not averaged, because lists may differ in length.
 * @throws RangeError when there is no list, or a score is out of its domain
 * Source: sum of binomial counts; consistency by Thornton and Raffin 1978. Checked by: tests/unit/speech/word-scores.test.ts
 */
export function combineLists(lists: readonly WordScore[]): CombinedLists {
  if (lists.length === 0) throw outsideDomain('the number of lists', 0, 'at least 1')
  for (const [index, list] of lists.entries()) requireScore(`lists[${index}]`, list)
  const score = {
    correct: lists.reduce((sum, list) => sum + list.correct, 0),
    presented: lists.reduce((sum, list) => sum + list.presented, 0),
  }
  return {
    score,
    lists: lists.length,
    wilson: wilsonInterval(score),
    consistent: everyPair(lists, (a, b) => compareScores(a, b).verdict === 'no-significant-difference'),
  }
}

function everyPair<T>(items: readonly T[], holds: (a: T, b: T) => boolean): boolean {
  return items.every((first, index) => items.slice(index + 1).every((second) => holds(first, second)))
}
