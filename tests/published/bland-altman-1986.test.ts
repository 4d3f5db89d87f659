import { describe, it } from 'vitest'
import { limitsOfAgreement } from '../../lib/outcomes/bland-altman.ts'
import { checkValue } from './record-check.ts'

const source = 'Bland and Altman, Lancet 327:307-310, 1986, peak flow of 17 subjects'

const largeMeter = [494, 395, 516, 434, 476, 557, 413, 442, 650, 433, 417, 656, 267, 478, 178, 423, 427]
const smallMeter = [512, 430, 520, 428, 500, 600, 364, 380, 658, 445, 432, 626, 260, 477, 259, 350, 451]

/** The paper takes two standard deviations, which hold 95.45 %. */
const twoStandardDeviations = 0.954499736103642

describe('limits of agreement', () => {
  it('gives bias, SD and limits as printed', () => {
    const { bias, sd, lower, upper } = limitsOfAgreement(largeMeter, smallMeter, { coverage: twoStandardDeviations })
    checkValue({
      source,
      what: 'mean difference, SD, limits, l/min',
      expected: [-2.1, 38.8, -79.7, 75.5],
      actual: [bias.value, sd, lower.value, upper.value],
      tolerance: 0.15,
      why: 'printed with one decimal; the printed limits are made from the rounded mean and twice the rounded SD',
    })
    checkValue({
      source,
      what: 'interval of the bias, l/min',
      expected: [-22, 17.8],
      actual: [bias.low, bias.high],
      tolerance: 0.06,
      why: 'printed with one decimal, from rounded mean and SD',
    })
  })

  // R 4.2.2: d <- pre - post; z <- qnorm(.975); se <- sd(d) * sqrt(1 / n + z^2 / (2 * (n - 1)))
  // mean(d) - z * sd(d) + c(0, -1, 1) * qt(.975, n - 1) * se, and the same above
  it('gives the intervals of the limits by the formula of 1999', () => {
    const pre = [58.75, 61.25, 47.5, 55, 66.25, 52.5, 70, 48.75]
    const post = [31.25, 35, 30, 27.5, 42.5, 33.75, 38.75, 26.25]
    const { lower, upper } = limitsOfAgreement(pre, post)
    checkValue({
      source: 'Bland and Altman, Stat Methods Med Res 8:135-160, 1999, error of a limit',
      what: 'lower and upper limit, each with interval',
      expected: [15.20810784929, 8.21879117935, 22.19742451924, 33.54189215071, 26.55257548076, 40.53120882065],
      actual: [lower, upper].flatMap(({ value, low, high }) => [value, low, high]),
      tolerance: 1e-9,
      why: 'R gives 13 figures',
    })
  })
})
