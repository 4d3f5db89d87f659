import { outsideDomain, requireWithin } from '../audiometry/domain.ts'
import { compareScores, type ScoreComparison } from './critical-difference.ts'
import { proportionCorrect, type ScoreMethod, type WordScore } from './word-score.ts'

/** One point of a performance-intensity function. */
export interface ScoreAtLevel {
  /** Presentation level, dB HL or dB SPL, the same for all points; -20 to 140. */
  readonly levelDb: number
  readonly score: WordScore
}

export interface RolloverCriterion extends ScoreMethod {
  readonly id: 'pb-jerger-1971' | 'nu6-bess-1979' | 'nu6-meyer-1985'
  /** Rollover is called when the index exceeds this. */
  readonly above: number
}

export const rolloverCriteria: readonly RolloverCriterion[] = [
  {
    id: 'pb-jerger-1971',
    above: 0.45,
    source: 'Jerger and Jerger 1971 (PB words)',
    status: 'from memory, unconfirmed',
  },
  { id: 'nu6-bess-1979', above: 0.25, source: 'Bess et al. 1979 (NU-6)', status: 'from memory, unconfirmed' },
  { id: 'nu6-meyer-1985', above: 0.35, source: 'Meyer and Mishler 1985 (NU-6)', status: 'from memory, unconfirmed' },
]

export type Rollover =
  | {
      readonly kind: 'evaluable'
      readonly index: number
      /** PBmax: the best score; at equal scores the one at the lowest level. */
      readonly best: ScoreAtLevel
      /** PBmin: the poorest score at a level above that of PBmax. */
      readonly poorest: ScoreAtLevel
      readonly criteria: readonly { readonly criterion: RolloverCriterion; readonly exceeded: boolean }[]
      /** The drop against the critical difference of the two lists: an index without significance is chance. */
      readonly drop: ScoreComparison
    }
  | { readonly kind: 'not-evaluable'; readonly reason: 'no-level-above-best' | 'nothing-correct' }

/**
 * Rollover index of two scores: (PBmax - PBmin) / PBmax.
 * @param pbMax best score, above 0 to 100 % (or to 1, both in the same unit); @param pbMin 0 to `pbMax`
 * @throws RangeError naming the argument, its value and its domain
 * Source: Jerger and Jerger 1971 (from memory, unconfirmed). Checked by: tests/published/rollover-1971.test.ts
 */
export function rolloverIndex(pbMax: number, pbMin: number): number {
  if (!(pbMax > 0 && pbMax <= 100)) throw outsideDomain('pbMax', pbMax, 'above 0 and at most 100 %')
  requireWithin('pbMin', pbMin, 0, pbMax, '% (pbMax)')
  return (pbMax - pbMin) / pbMax
}

/**
 * Rollover of a performance-intensity function, held against the published criteria.
 *
 * Choose the criterion of the material used; the function gives all three, because it does not know the material.
 * @param points scores of one ear and material at two or more levels, in any order
 * @throws RangeError when there are fewer than two points, or a level or score is out of its domain
 * Source: `rolloverCriteria`. Checked by: tests/published/rollover-1971.test.ts
 */
export function rollover(points: readonly ScoreAtLevel[]): Rollover {
  if (points.length < 2) throw outsideDomain('the number of points', points.length, 'at least 2')
  for (const [index, point] of points.entries()) {
    requireWithin(`points[${index}].levelDb`, point.levelDb, -20, 140, 'dB')
  }
  const rising = points.toSorted((a, b) => a.levelDb - b.levelDb)
  const best = rising.reduce((kept, point) => (scoreOf(point) > scoreOf(kept) ? point : kept))
  if (scoreOf(best) === 0) return { kind: 'not-evaluable', reason: 'nothing-correct' }
  const above = rising.filter((point) => point.levelDb > best.levelDb)
  if (above.length === 0) return { kind: 'not-evaluable', reason: 'no-level-above-best' }
  const poorest = above.reduce((kept, point) => (scoreOf(point) < scoreOf(kept) ? point : kept))
  const index = rolloverIndex(100 * scoreOf(best), 100 * scoreOf(poorest))
  const criteria = rolloverCriteria.map((criterion) => ({ criterion, exceeded: index > criterion.above }))
  return { kind: 'evaluable', index, best, poorest, criteria, drop: compareScores(best.score, poorest.score) }
}

const scoreOf = (point: ScoreAtLevel): number => proportionCorrect(point.score)
