import { binomialAtMost } from './binomial.ts'
import { requireOpenUnit } from './counts.ts'
import type { EarIndex } from './ear-index.ts'
import { expectedScore, type TransferFunction, type TransferMaterial, transferFunctions } from './score-transfer.ts'
import { requireScore, type WordScore } from './word-score.ts'

/** A measured score against the score that the audiogram leads one to expect. */
export interface ScoreAgainstExpectation {
  /** Expected proportion, 0 to 1; an upper bound when the index is one. */
  readonly expected: number
  /** Items right that chance allows in a list of this length when the expectation is true, both inclusive. */
  readonly lowest: number
  readonly highest: number
  /**
   * `cannot-tell`: the index is only an upper bound, and the score is below what that bound allows.
   * The expectation's own error (other recording, other population) is not in the range.
   */
  readonly verdict: 'as-expected' | 'below' | 'above' | 'cannot-tell'
  /** Probability of a score this low or lower when the expectation is true. */
  readonly atMostProbability: number
  readonly transfer: TransferFunction
  readonly confidence: number
}

/**
 * Holds a word score against the index of the ear at the same presentation level.
 *
 * The range is that of the binomial distribution with the expected proportion: the chance of drawing the words, nothing
 * else. A score below it in a cochlear loss of known audibility asks for a retrocochlear or a test cause.
 * @param ear index computed with the importance function of `material`
 * @param score measured with the same material, level and noise
 * @param confidence between 0 and 1 exclusive
 * @throws RangeError when the index was weighed for another material, or an argument is out of its domain
 * Source: `transferFunctions`; binomial model of Thornton and Raffin 1978. Checked by: tests/unit/speech/word-scores.test.ts
 */
export function scoreAgainstExpectation(
  ear: Pick<EarIndex, 'index' | 'bound' | 'importance'>,
  material: TransferMaterial,
  score: WordScore,
  confidence = 0.95,
): ScoreAgainstExpectation {
  const { correct, presented } = requireScore('score', score)
  const tail = (1 - requireOpenUnit('confidence', confidence)) / 2
  if (ear.importance.material !== material) {
    throw new RangeError(`the index was weighed for ${ear.importance.material}, but the score is of ${material}`)
  }
  const expected = expectedScore(material, ear.index)
  const lowest = binomialQuantile(tail, presented, expected)
  const highest = binomialQuantile(1 - tail, presented, expected)
  const side = correct < lowest ? 'below' : correct > highest ? 'above' : 'as-expected'
  return {
    expected,
    lowest,
    highest,
    verdict: side === 'below' && ear.bound === 'upper-bound' ? 'cannot-tell' : side,
    atMostProbability: binomialAtMost(correct, presented, expected),
    transfer: transferFunctions[material],
    confidence,
  }
}

function binomialQuantile(probability: number, trials: number, p: number): number {
  let successes = 0
  while (successes < trials && binomialAtMost(successes, trials, p) < probability) successes++
  return successes
}
