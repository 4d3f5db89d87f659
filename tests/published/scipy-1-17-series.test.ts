import { describe, expect, it } from 'vitest'
import { leaveOneOutScores } from '../../lib/outcomes/series-calibration.ts'
import { compareSites } from '../../lib/outcomes/site-comparison.ts'
import type { FrequencyHz } from '../../lib/units/frequencies.ts'
import { resultOf } from '../fixtures/series-ears.ts'
import { checkValue } from './record-check.ts'

const source = 'SciPy 1.17.1, scipy.stats'
const accuracy = { tolerance: 1e-8, why: 'SciPy prints 16 figures; its integrals are good to 1e-8' }

const incus = { 500: [18, 22, 15, 25, 20, 12], 4000: [10, 5, 15, 8, 12, 2] }
const window = { 500: [17, 20, 14, 22, 18, 16, 21], 4000: [-5, 0, 3, -2, 6, 1, -4] }
const ears = (site: 'incus-body' | 'round-window', gains: typeof incus) =>
  gains[500].map((low, index) =>
    resultOf(
      site,
      new Map<FrequencyHz, number>([
        [500, low],
        [4000, gains[4000][index] ?? Number.NaN],
      ]),
    ),
  )

describe('two sites', () => {
  it('differ at each frequency as a second library finds, with limits and probabilities for both frequencies together', () => {
    const { byFrequency, compared } = compareSites(
      [...ears('incus-body', incus), ...ears('round-window', window)],
      'incus-body',
      'round-window',
      'effective-gain',
    )
    expect(compared).toBe(2)
    // ttest_ind(a, b, equal_var=False): means, confidence_interval(0.975); pvalue, times 2 for the smaller one (Holm)
    const expected = {
      500: [0.38095238095238315, -5.701770111127974, 6.463674873032747, 0.8674727939997616],
      4000: [8.809523809523808, 2.399308065867051, 15.219739553180574, 2 * 0.004759368481908678],
    }
    for (const frequency of [500, 4000] as const) {
      const difference = byFrequency.find((row) => row.frequency === frequency)?.difference
      const actual = difference && [difference.value, difference.low, difference.high, difference.pAdjusted]
      checkValue({
        source,
        what: `difference at ${frequency} Hz`,
        expected: expected[frequency],
        actual: actual ?? [],
        ...accuracy,
      })
    }
  })
})

describe('the baseline without a model', () => {
  it('has the score of a Student law about the mean of the other ears', () => {
    // For each y: d = t(n - 2, mean(others), sd(others) * sqrt(1 + 1/(n - 1))); quad(d.cdf^2, -inf, y) + quad(d.sf^2, y, inf)
    const actual = leaveOneOutScores([32.5, 41.25, 28.75, 45, 36.25, 30])
    checkValue({
      source,
      what: 'ranked probability scores, one out at a time',
      expected: [
        2.6963460684609473, 4.082578892411614, 5.091517202396538, 7.814922101985454, 2.1102738109272305,
        4.082578892411615,
      ],
      actual: actual === undefined ? [] : [...actual],
      ...accuracy,
    })
  })

  it('is none where the others are all alike', () => {
    expect(leaveOneOutScores([30, 30, 30, 30, 35])).toBeUndefined()
  })
})
