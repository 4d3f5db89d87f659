import { describe, it } from 'vitest'
import { exactInterval } from '../../lib/speech/exact-interval.ts'
import { checkValue } from './record-check.ts'

const source = 'Clopper and Pearson, Biometrika 26:404-413, 1934'
const accuracy = { tolerance: 1e-10, why: 'R gives 13 figures; the stated accuracy is 1e-10' }

// R 4.2.2: binom.test(x, n, conf.level = c)$conf.int
const limits = [
  { correct: 41, presented: 50, confidence: 0.95, expected: [0.6856305887143, 0.9142379218903] },
  { correct: 7, presented: 50, confidence: 0.95, expected: [0.05819170034037, 0.26739600249701] },
  { correct: 0, presented: 25, confidence: 0.95, expected: [0, 0.1371851715307] },
  { correct: 25, presented: 25, confidence: 0.95, expected: [0.8628148284693, 1] },
  { correct: 1, presented: 10, confidence: 0.95, expected: [0.002528578544462, 0.445016117028195] },
  { correct: 22, presented: 25, confidence: 0.95, expected: [0.6878096927138, 0.9745346033523] },
  { correct: 50, presented: 100, confidence: 0.95, expected: [0.3983211295033, 0.6016788704967] },
  { correct: 7, presented: 50, confidence: 0.99, expected: [0.04246878737883, 0.30910696596482] },
  { correct: 7, presented: 50, confidence: 0.8, expected: [0.07962972624667, 0.22419222369365] },
] as const

describe('exact limits of a proportion', () => {
  it.each(limits)('$correct of $presented at $confidence', ({ correct, presented, confidence, expected }) => {
    const { low, high } = exactInterval({ correct, presented }, confidence)
    const what = `limits of ${correct} of ${presented} at ${confidence}`
    checkValue({ source, what, expected, actual: [low, high], ...accuracy })
  })
})
