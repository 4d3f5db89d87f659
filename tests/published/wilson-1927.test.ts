import { describe, it } from 'vitest'
import { wilsonInterval } from '../../lib/speech/binomial-interval.ts'
import { checkValue } from './record-check.ts'

const source = 'Wilson, J Am Stat Assoc 22:209-212, 1927'
const accuracy = { tolerance: 1e-12, why: 'R gives 13 figures' }

// R 4.2.2: prop.test(x, n, conf.level = c, correct = FALSE)$conf.int
const limits = [
  { correct: 41, presented: 50, confidence: 0.95, expected: [0.692039463257, 0.9022980732977] },
  { correct: 7, presented: 50, confidence: 0.95, expected: [0.06950833427016, 0.26186193710586] },
  { correct: 0, presented: 25, confidence: 0.95, expected: [0, 0.133192250939] },
  { correct: 25, presented: 25, confidence: 0.95, expected: [0.866807749061, 1] },
  { correct: 1, presented: 10, confidence: 0.95, expected: [0.017876213095073, 0.404150026795238] },
  { correct: 22, presented: 25, confidence: 0.95, expected: [0.7004420607907, 0.9583318284956] },
  { correct: 50, presented: 100, confidence: 0.95, expected: [0.403831530366, 0.596168469634] },
  { correct: 7, presented: 50, confidence: 0.99, expected: [0.05614371860634, 0.30820578743035] },
  { correct: 7, presented: 50, confidence: 0.8, expected: [0.08851935972567, 0.21437868848183] },
] as const

describe('score limits of a proportion', () => {
  it.each(limits)('$correct of $presented at $confidence', ({ correct, presented, confidence, expected }) => {
    const { low, high } = wilsonInterval({ correct, presented }, confidence)
    const what = `limits of ${correct} of ${presented} at ${confidence}`
    checkValue({ source, what, expected, actual: [low, high], ...accuracy })
  })
})
