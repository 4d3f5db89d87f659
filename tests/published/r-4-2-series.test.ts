import { describe, it } from 'vitest'
import { meanSummary, pairedDifference, welchDifference } from '../../lib/outcomes/mean-interval.ts'
import { checkValue } from './record-check.ts'

const source = 'R 4.2.2, t.test'
const accuracy = { tolerance: 1e-9, why: 'R gives 13 figures; values up to 100' }

const pre = [58.75, 61.25, 47.5, 55, 66.25, 52.5, 70, 48.75]
const post = [31.25, 35, 30, 27.5, 42.5, 33.75, 38.75, 26.25]

// datasets::sleep, the data of Student, Biometrika 6:1-25, 1908
const firstDrug = [0.7, -1.6, -0.2, -1.2, -0.1, 3.4, 3.7, 0.8, 0, 2]
const secondDrug = [1.9, 0.8, 1.1, 0.1, -0.1, 4.4, 5.5, 1.6, 4.6, 3.4]

describe('means of small series', () => {
  it('mean, SD and interval', () => {
    // mean(pre); sd(pre); t.test(pre)$conf.int; t.test(pre, conf.level = .9)$conf.int
    const { value, sd, low, high } = meanSummary(pre)
    const expected = [57.5, 8.07332468247, 50.75053165835, 64.24946834165]
    checkValue({ source, what: 'mean, SD, 95 % limits', expected, actual: [value, sd, low, high], ...accuracy })
    const ninety = meanSummary(pre, 0.9)
    const limits = [52.09220706748, 62.90779293252]
    checkValue({ source, what: '90 % limits', expected: limits, actual: [ninety.low, ninety.high], ...accuracy })
  })

  it('paired difference', () => {
    // t.test(pre, post, paired = TRUE): estimate, conf.int, statistic, p.value; sd(pre - post)
    const { value, low, high, t, pValue, sd } = pairedDifference(pre, post)
    checkValue({
      source,
      what: 'before minus after: mean, limits, t, p, SD',
      expected: [24.375, 20.46487017886, 28.28512982114, 14.74061444736, 1.582380651638e-6, 4.677071733467],
      actual: [value, low, high, t, pValue, sd],
      ...accuracy,
    })
    // t.test(extra[1:10], extra[11:20], paired = TRUE)
    const sleep = pairedDifference(firstDrug, secondDrug)
    checkValue({
      source: 'Student, Biometrika 6:1-25, 1908 (data), by R 4.2.2, t.test',
      what: 'paired: limits, t, p',
      expected: [-2.459885763276982, -0.700114236723018, -4.062127683382037, 0.002832890197384],
      actual: [sleep.low, sleep.high, sleep.t, sleep.pValue],
      ...accuracy,
    })
  })

  it('Welch difference', () => {
    // t.test(g1, g2): mean difference, conf.int, statistic, parameter, p.value
    const first = [12.5, 8.75, 20, 15, 11.25, 6.25, 17.5]
    const second = [22.5, 18.75, 30, 16.25, 27.5, 12.5, 35, 21.25, 19]
    const { value, low, high, t, degreesOfFreedom, pValue } = welchDifference(first, second)
    checkValue({
      source,
      what: 'two groups: difference, limits, t, df, p',
      expected: [
        -9.492063492063492, -15.917879526611168, -3.066247457515818, -3.172018372762887, 13.823916886710975,
        0.006880049993959,
      ],
      actual: [value, low, high, t, degreesOfFreedom, pValue],
      ...accuracy,
    })
    // t.test(extra[1:10], extra[11:20])
    const sleep = welchDifference(firstDrug, secondDrug)
    checkValue({
      source: 'Student, Biometrika 6:1-25, 1908 (data), by R 4.2.2, t.test',
      what: 'unpaired: limits, t, df, p',
      expected: [-3.36548323071171, 0.20548323071171, -1.86081346748685, 17.7764735161785, 0.07939414018736],
      actual: [sleep.low, sleep.high, sleep.t, sleep.degreesOfFreedom, sleep.pValue],
      ...accuracy,
    })
  })
})
