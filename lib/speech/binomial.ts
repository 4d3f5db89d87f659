import betaCdf from '@stdlib/stats-base-dists-beta-cdf'
import { requireWithin } from '../audiometry/domain.ts'
import { requireScore } from './word-score.ts'

/**
 * Probability of at most `successes` in `trials` independent trials of probability `p`.
 * `successes` and `trials` are integers, 0 to `trials`; `p` is a proportion, 0 to 1.
 * @throws RangeError naming the argument, its value and its domain
 * Source: the incomplete beta function (Abramowitz and Stegun 1964, 26.5.24). Checked by: tests/published/r-4-2-proportions.test.ts
 */
export function binomialAtMost(successes: number, trials: number, p: number): number {
  requireScore('successes of trials', { correct: successes, presented: trials })
  requireWithin('p', p, 0, 1, '(a proportion)')
  if (successes === trials || p === 0) return 1
  return p === 1 ? 0 : betaCdf(1 - p, trials - successes, successes + 1)
}
