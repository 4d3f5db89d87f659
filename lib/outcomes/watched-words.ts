import normalCdf from '@stdlib/stats-base-dists-normal-cdf'
import { combineLists } from '../speech/combined-lists.ts'
import { compareScores } from '../speech/critical-difference.ts'
import { proportionCorrect, type WordScore } from '../speech/word-score.ts'
import type { EarCourse, ScoreMeasured, VisitMeasured } from './ear-course.ts'
import type { JudgedWords, NotJudged, Verdict } from './verdict.ts'

/** A contingency on words: monosyllables in quiet at one level, that fall by more than chance explains. */
export interface WordsTrigger {
  readonly condition: ScoreMeasured['condition']
  readonly levelDbSpl: number
  readonly reference: 'before-surgery' | 'first-fitting' | 'best-so-far'
}

interface Reference {
  readonly score: WordScore
  readonly visit?: string
}

/**
 * Whether the word score of a visit is lower than chance explains, given an earlier one.
 *
 * Met: below the 95 % critical range of the reference (two-sided). Not met: inside it, however low it looks. Cannot be told:
 * one word from that limit, where the revision of the table in 2007 decides otherwise (`borderline` of the comparison); or
 * lower, with lists so short that no score would be low enough. P is the probability that the true score has fallen, with no
 * opinion beforehand: Phi of the difference of the angles. Several lists of one occasion are added up.
 *
 * What it cannot know: lists that are not equally hard, and that the best of several scores is best by luck too, so a fall
 * against the best so far is a little overstated.
 * @param index of the visit in the course
 * @throws RangeError when there is no such visit
 * Source: Thornton and Raffin, J Speech Hear Res 21:507-518, 1978, with Carney and Schlauch 2007. Checked by:
 * tests/published/thornton-raffin-1978.test.ts
 */
export function watchedWordsAt(trigger: WordsTrigger, course: EarCourse, index: number): JudgedWords | NotJudged {
  const at = course.visits[index]
  if (at === undefined) throw new RangeError(`visit ${index} is not one of ${course.visits.length}`)
  const now = scoreOf(trigger, at.words)
  if (now === undefined) return { kind: 'absent', reason: 'not-measured', missing: [] }
  const reference = referenceOf(trigger, course, course.visits.slice(0, index))
  if (reference === undefined) return { kind: 'absent', reason: 'no-reference', missing: [] }
  return judged(now, reference)
}

function judged(score: WordScore, reference: Reference): JudgedWords {
  const { z, range } = compareScores(reference.score, score)
  const fallen = normalCdf(-z, 0, 1)
  const { lowest: leastByChance } = range
  const probability = { low: fallen, high: fallen }
  const verdict = verdictOf(score, reference.score, leastByChance)
  return { kind: 'judged', of: 'words', verdict, probability, score, reference, leastByChance }
}

function verdictOf(score: WordScore, reference: WordScore, leastByChance: number): Verdict {
  if (proportionCorrect(score) >= proportionCorrect(reference)) return 'not-met'
  if (leastByChance === 0) return 'cannot-tell'
  if (score.correct === leastByChance || score.correct === leastByChance - 1) return 'cannot-tell'
  return score.correct < leastByChance ? 'met' : 'not-met'
}

function referenceOf(
  trigger: WordsTrigger,
  { wordsBefore }: EarCourse,
  earlier: readonly VisitMeasured[],
): Reference | undefined {
  const scored = earlier.flatMap(({ visit, isFirstFitting, words }) => {
    const score = scoreOf(trigger, words)
    return score === undefined ? [] : [{ visit, isFirstFitting, score }]
  })
  switch (trigger.reference) {
    case 'before-surgery': {
      const score = scoreOf(trigger, wordsBefore)
      return score && { score }
    }
    case 'first-fitting':
      return withoutPlace(scored.find(({ isFirstFitting }) => isFirstFitting))
    case 'best-so-far':
      return withoutPlace(scored.toSorted((a, b) => proportionCorrect(b.score) - proportionCorrect(a.score))[0])
    default:
      return trigger.reference satisfies never
  }
}

const withoutPlace = (of: (Reference & { readonly isFirstFitting: boolean }) | undefined): Reference | undefined =>
  of && { score: of.score, ...(of.visit === undefined ? {} : { visit: of.visit }) }

function scoreOf({ condition, levelDbSpl }: WordsTrigger, words: readonly ScoreMeasured[]): WordScore | undefined {
  const lists = words.filter((list) => list.condition === condition && list.levelDbSpl === levelDbSpl)
  return lists.length === 0 ? undefined : combineLists(lists.map(({ score }) => score)).score
}
