import { describe, it } from 'vitest'
import { hodgesLehmann, hodgesLehmannShift } from '../../lib/outcomes/hodges-lehmann.ts'
import { mannWhitneyCdf, signedRankCdf } from '../../lib/outcomes/rank-distributions.ts'
import { checkValue } from './record-check.ts'

const source = 'R 4.2.2, wilcox.test, psignrank, pwilcox'
const book = 'Hollander and Wolfe, Nonparametric Statistical Methods, 1973 (data), by R 4.2.2, wilcox.test'
const accuracy = { tolerance: 1e-9, why: 'medians and order statistics of the data' }

// R 4.2.2: set.seed(1); round(rnorm(60, 5, 4), 3)
const sixty = [
  2.494, 5.735, 1.657, 11.381, 6.318, 1.718, 6.95, 7.953, 7.303, 3.778, 11.047, 6.559, 2.515, -3.859, 9.5, 4.82, 4.935,
  8.775, 8.285, 7.376, 8.676, 8.129, 5.298, -2.957, 7.479, 4.775, 4.377, -0.883, 3.087, 6.672, 10.435, 4.589, 6.551,
  4.785, -0.508, 3.34, 3.423, 4.763, 9.4, 8.053, 4.342, 3.987, 7.788, 7.227, 2.245, 2.17, 6.458, 8.074, 4.551, 8.524,
  6.592, 2.552, 6.364, 0.483, 10.732, 12.922, 3.531, 0.823, 7.279, 4.46,
]

describe('Hodges-Lehmann', () => {
  it('one sample, exact limits: depression scores, p. 29', () => {
    // wilcox.test(x - y, conf.int = TRUE) of the example of ?wilcox.test
    const before = [1.83, 0.5, 1.62, 2.48, 1.68, 1.88, 1.55, 3.06, 1.3]
    const after = [0.878, 0.647, 0.598, 2.05, 1.06, 1.29, 1.06, 3.14, 1.29]
    const { value, low, high } = hodgesLehmann(before.map((score, index) => score - (after[index] ?? 0)))
    checkValue({
      source: book,
      what: 'centre, limits',
      expected: [0.46, 0.01, 0.786],
      actual: [value, low, high],
      ...accuracy,
    })
  })

  it('two samples, exact limits: permeability, p. 69', () => {
    // wilcox.test(x, y, conf.int = TRUE) and conf.level = .9 of the example of ?wilcox.test
    const term = [0.8, 0.83, 1.89, 1.04, 1.45, 1.38, 1.91, 1.64, 0.73, 1.46]
    const early = [1.15, 0.88, 0.9, 0.74, 1.21]
    const { value, low, high } = hodgesLehmannShift(term, early)
    checkValue({
      source: book,
      what: 'shift, limits',
      expected: [0.305, -0.15, 0.76],
      actual: [value, low, high],
      ...accuracy,
    })
    const ninety = hodgesLehmannShift(term, early, 0.9)
    checkValue({
      source: book,
      what: '90 % limits',
      expected: [-0.08, 0.72],
      actual: [ninety.low, ninety.high],
      ...accuracy,
    })
  })

  it('one sample of 60: the normal approximation agrees with the exact limits', () => {
    // wilcox.test(x, conf.int = TRUE, exact = TRUE)
    const { value, low, high } = hodgesLehmann(sixty)
    const expected = [5.5675, 4.629, 6.433]
    const why = 'neighbouring order statistics lie about 0.005 apart there'
    checkValue({
      source,
      what: '60 values: centre, limits',
      expected,
      actual: [value, low, high],
      tolerance: 0.01,
      why,
    })
  })

  it('median of the Walsh averages of a paired series', () => {
    const differences = [27.5, 26.25, 17.5, 27.5, 23.75, 18.75, 31.25, 22.5]
    const actual = hodgesLehmann(differences).value
    checkValue({ source, what: '8 differences', expected: 24.6875, actual, ...accuracy })
  })

  it('rank distributions', () => {
    const figures = { tolerance: 1e-12, why: 'R gives 13 figures' }
    // psignrank(c(0, 3, 8, 52), c(6, 8, 10, 20))
    const signedRank = [[0, 6] as const, [3, 8] as const, [8, 10] as const, [52, 20] as const]
    checkValue({
      source,
      what: 'signed-rank probabilities',
      expected: [0.015625, 0.01953125, 0.0244140625, 0.02422046661377],
      actual: signedRank.map(([sum, n]) => signedRankCdf(n)[sum] ?? Number.NaN),
      ...figures,
    })
    // pwilcox(c(8, 8, 20, 300), c(10, 5, 12, 30), c(5, 9, 7, 30))
    const mannWhitney = [[8, 10, 5] as const, [8, 5, 9] as const, [20, 12, 7] as const, [300, 30, 30] as const]
    checkValue({
      source,
      what: 'Mann-Whitney probabilities',
      expected: [0.01998001998002, 0.02997002997003, 0.03417480352465, 0.01316598015129],
      actual: mannWhitney.map(([count, m, n]) => mannWhitneyCdf(m, n)[count] ?? Number.NaN),
      ...figures,
    })
  })
})
