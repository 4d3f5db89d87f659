import { requireWithin } from '../audiometry/domain.ts'
import { requireScore } from './word-score.ts'

/**
 * Probability of at most `successes` in `trials` independent trials of probability `p`.
 * `successes` and `trials` are integers, 0 to `trials`; `p` is a proportion, 0 to 1.
 * @throws RangeError naming the argument, its value and its domain
 * The terms are summed from their logarithms: a list has at most some hundred items, and a page that shows a score need
 * not load the incomplete beta function. Accuracy: 1e-12 up to 1,000 trials.
 * Checked by: tests/published/r-4-2-proportions.test.ts and, against the incomplete beta function,
 * tests/unit/speech/binomial.test.ts
 */
export function binomialAtMost(successes: number, trials: number, p: number): number {
  requireScore('successes of trials', { correct: successes, presented: trials })
  requireWithin('p', p, 0, 1, '(a proportion)')
  if (successes === trials || p === 0) return 1
  if (p === 1) return 0
  const logOdds = Math.log(p) - Math.log1p(-p)
  let logTerm = trials * Math.log1p(-p)
  let sum = Math.exp(logTerm)
  for (let k = 1; k <= successes; k++) {
    logTerm += Math.log((trials - k + 1) / k) + logOdds
    sum += Math.exp(logTerm)
  }
  return Math.min(1, sum)
}
