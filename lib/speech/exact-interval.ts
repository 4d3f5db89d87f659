import betaQuantile from '@stdlib/stats-base-dists-beta-quantile'
import { intervalMethods, type ProportionInterval } from './binomial-interval.ts'
import { requireOpenUnit } from './counts.ts'
import { requireScore, type WordScore } from './word-score.ts'

/**
 * Exact (Clopper-Pearson) confidence limits of a proportion: holds its confidence for every true value, and is
 * therefore wide. Use it where a guarantee is wanted.
 * @param score items right of items presented
 * @param confidence between 0 and 1 exclusive
 * @returns limits as proportions, 0 to 1; `low` is 0 when nothing was right, `high` is 1 when everything was
 * @throws RangeError naming the argument, its value and its domain
 * Source: `intervalMethods.exact`. Accuracy: 1e-10 absolute. Checked by: tests/published/clopper-pearson-1934.test.ts
 */
export function exactInterval(score: WordScore, confidence = 0.95): ProportionInterval {
  const { correct, presented } = requireScore('score', score)
  const tail = (1 - requireOpenUnit('confidence', confidence)) / 2
  const wrong = presented - correct
  return {
    proportion: correct / presented,
    low: correct === 0 ? 0 : betaQuantile(tail, correct, wrong + 1),
    high: wrong === 0 ? 1 : betaQuantile(1 - tail, correct + 1, wrong),
    confidence,
    method: intervalMethods.exact,
  }
}
