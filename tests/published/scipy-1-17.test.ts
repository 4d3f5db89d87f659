import { describe, it } from 'vitest'
import { meanSummary, pairedDifference, welchDifference } from '../../lib/outcomes/mean-interval.ts'
import { nonCentralTCdf } from '../../lib/outcomes/non-central-t.ts'
import { exactMcNemar } from '../../lib/outcomes/proportions.ts'
import { mannWhitneyCdf, signedRankCdf } from '../../lib/outcomes/rank-distributions.ts'
import { binomialAtMost } from '../../lib/speech/binomial.ts'
import { twoSidedZ, wilsonInterval } from '../../lib/speech/binomial-interval.ts'
import { exactInterval } from '../../lib/speech/exact-interval.ts'
import { checkValue } from './record-check.ts'

// A second library beside R: each call of SciPy 1.17.1 that gave a value stands above it.
const source = 'SciPy 1.17.1, scipy.stats'
const accuracy = { tolerance: 1e-9, why: 'SciPy prints 16 figures' }

const pre = [58.75, 61.25, 47.5, 55, 66.25, 52.5, 70, 48.75]
const post = [31.25, 35, 30, 27.5, 42.5, 33.75, 38.75, 26.25]

describe('a second library', () => {
  it('agrees on the interval of a mean', () => {
    // np.mean(pre); sem(pre) * t.ppf(.975, 7)
    const { value, high } = meanSummary(pre)
    const expected = [57.5, 6.749468341654056]
    checkValue({ source, what: 'mean, half-width', expected, actual: [value, high - value], ...accuracy })
  })

  it('agrees on paired and unpaired differences', () => {
    // ttest_rel(pre, post): confidence_interval(), statistic, pvalue
    const paired = pairedDifference(pre, post)
    checkValue({
      source,
      what: 'paired: limits, t, p',
      expected: [20.46487017885829, 28.28512982114171, 14.740614447359862, 1.5823806516383214e-6],
      actual: [paired.low, paired.high, paired.t, paired.pValue],
      ...accuracy,
    })
    // ttest_ind(pre, post, equal_var=False): confidence_interval(), statistic, df, pvalue
    const welch = welchDifference(pre, post)
    checkValue({
      source,
      what: 'Welch: limits, t, degrees of freedom, p',
      expected: [16.855533138300164, 31.894466861699836, 7.037110929391275, 12.408444222878401, 1.1374853640858282e-5],
      actual: [welch.low, welch.high, welch.t, welch.degreesOfFreedom, welch.pValue],
      ...accuracy,
    })
  })

  it('agrees on the interval of a score', () => {
    const exact = (correct: number, presented: number, confidence?: number) => {
      const { low, high } = exactInterval({ correct, presented }, confidence)
      return [low, high]
    }
    // binomtest(13, 20), (0, 25) and, at 90 %, (23, 50): proportion_ci(method='exact')
    checkValue({
      source,
      what: 'Clopper and Pearson: 13 of 20, 0 of 25, 23 of 50 at 90 %',
      expected: [
        0.4078114654671718, 0.8460907952154588, 0, 0.1371851715307125, 0.33845155870763444, 0.5852427590032405,
      ],
      actual: [...exact(13, 20), ...exact(0, 25), ...exact(23, 50, 0.9)],
      ...accuracy,
    })
    // binomtest(13, 20) and (25, 25): proportion_ci(method='wilson')
    const some = wilsonInterval({ correct: 13, presented: 20 })
    const all = wilsonInterval({ correct: 25, presented: 25 })
    checkValue({
      source,
      what: 'Wilson: 13 of 20, 25 of 25',
      expected: [0.4328542766852363, 0.8188081758989179, 0.8668077490609516, 1],
      actual: [some.low, some.high, all.low, all.high],
      ...accuracy,
    })
  })

  it('agrees on distributions', () => {
    // binom.cdf(9, 25, .5); binom.cdf(20, 50, .52); norm.ppf(.975)
    checkValue({
      source,
      what: 'binomial distribution, normal quantile',
      expected: [0.11476147174835205, 0.05963461194998365, 1.959963984540054],
      actual: [binomialAtMost(9, 25, 0.5), binomialAtMost(20, 50, 0.52), twoSidedZ(0.95)],
      ...accuracy,
    })
    // nct.cdf(2, 10, 1.5); nct.cdf(1, 28, 2.4); nct.cdf(3.2, 5, 0); nct.cdf(-1, 12, 1)
    checkValue({
      source,
      what: 'non-central t distribution',
      expected: [0.6591540724421909, 0.08127667959508635, 0.9880024115983498, 0.026127834605378153],
      actual: [
        nonCentralTCdf(2, 10, 1.5),
        nonCentralTCdf(1, 28, 2.4),
        nonCentralTCdf(3.2, 5, 0),
        nonCentralTCdf(-1, 12, 1),
      ],
      ...accuracy,
    })
    // wilcoxon([1, 2, 3, 4, 5, -6], alternative='less', method='exact'): sum of positive ranks 15; [1, 2, -3, -4, 5, -6]: 8
    const ranks = signedRankCdf(6)
    checkValue({
      source,
      what: 'signed-rank sum of 6: at most 15, at most 8',
      expected: [0.84375, 0.34375],
      actual: [ranks[15], ranks[8]].map((value) => value ?? Number.NaN),
      ...accuracy,
    })
    // mannwhitneyu([1, 3, 5], [2, 4, 6, 7], 'less', 'exact'): U 3; ([2, 9, 11, 12], [1, 3, 4, 5, 8]): U 16
    checkValue({
      source,
      what: 'Mann-Whitney count: 3 and 4 values, 4 and 5 values',
      expected: [0.2, 0.9444444444444444],
      actual: [mannWhitneyCdf(3, 4)[3], mannWhitneyCdf(4, 5)[16]].map((value) => value ?? Number.NaN),
      ...accuracy,
    })
    // binomtest(3, 15).pvalue
    const { pValue } = exactMcNemar(3, 12)
    checkValue({ source, what: 'McNemar, 3 against 12', expected: 0.03515625, actual: pValue, ...accuracy })
  })
})
