import { describe, it } from 'vitest'
import { exactMcNemar, proportionSummary } from '../../lib/outcomes/proportions.ts'
import { binomialAtMost } from '../../lib/speech/binomial.ts'
import { checkValue } from './record-check.ts'

const source = 'R 4.2.2, pbinom, binom.test, prop.test'
const accuracy = { tolerance: 1e-12, why: 'R gives 13 figures' }

describe('counts', () => {
  it('binomial probabilities', () => {
    // pbinom(c(3, 20, 0, 44), c(10, 25, 50, 50), c(.5, .9, .02, .95))
    const cases = [[3, 10, 0.5] as const, [20, 25, 0.9] as const, [0, 50, 0.02] as const, [44, 50, 0.95] as const]
    const expected = [0.171875, 0.09799362119546, 0.36416968008712, 0.03777617298978]
    const actual = cases.map(([successes, trials, p]) => binomialAtMost(successes, trials, p))
    checkValue({ source, what: 'binomial distribution', expected, actual, ...accuracy })
  })

  it('exact McNemar', () => {
    // sapply(list(c(3, 12), c(0, 6), c(5, 5), c(1, 8), c(86, 150)), function(k) binom.test(k[1], sum(k))$p.value)
    // The last pair is that of ?mcnemar.test (Agresti 1990, p. 350).
    const pairs = [[3, 12] as const, [0, 6] as const, [5, 5] as const, [1, 8] as const, [86, 150] as const]
    const expected = [0.03515625, 0.03125, 1, 0.0390625, 3.715936139571e-5]
    const actual = pairs.map(([onlyFirst, onlySecond]) => exactMcNemar(onlyFirst, onlySecond).pValue)
    checkValue({ source, what: 'McNemar p values', expected, actual, ...accuracy })
  })

  it('a reporting bin', () => {
    // binom.test(22, 25)$conf.int; prop.test(22, 25, correct = FALSE)$conf.int
    const { exact, wilson } = proportionSummary({ events: 22, total: 25 })
    const expected = [0.6878096927138, 0.9745346033523, 0.7004420607907, 0.9583318284956]
    const actual = [exact.low, exact.high, wilson.low, wilson.high]
    checkValue({ source, what: '22 of 25', expected, actual, ...accuracy })
  })
})
