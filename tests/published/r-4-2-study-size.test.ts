import { describe, it } from 'vitest'
import { nonCentralTCdf } from '../../lib/outcomes/non-central-t.ts'
import {
  pairedPower,
  pairedStudySize,
  twoGroupPower,
  twoGroupStudySize,
  twoProportionPower,
  twoProportionStudySize,
} from '../../lib/outcomes/study-size.ts'
import { checkValue } from './record-check.ts'

const source = 'R 4.2.2, pt, power.t.test, power.prop.test'
const rootOfR = { tolerance: 0.001, why: "power.t.test stops at uniroot's tolerance of about 1e-4" }

describe('study size', () => {
  it('non-central t', () => {
    // pt(c(2, -1, 3.5, 0, 12, 1.99, 40), c(10, 5, 20.5, 8, 30, 70, 15), c(1, 2, 3, 1.5, 10, 4, 35))
    const cases = [
      [2, 10, 1] as const,
      [-1, 5, 2] as const,
      [3.5, 20.5, 3] as const,
      [0, 8, 1.5] as const,
      [12, 30, 10] as const,
      [1.99, 70, 4] as const,
      [40, 15, 35] as const,
    ]
    checkValue({
      source,
      what: 'non-central t distribution',
      expected: [
        0.807611562530311, 0.002316375654163, 0.655287088960261, 0.066807201268858, 0.84947932220468, 0.023347011224467,
        0.715847622605763,
      ],
      actual: cases.map(([t, degreesOfFreedom, ncp]) => nonCentralTCdf(t, degreesOfFreedom, ncp)),
      tolerance: 1e-10,
      why: 'the stated accuracy; R has about 1e-12',
    })
  })

  it('two means', () => {
    // power.t.test(delta = 10, sd = 15, power = .8, strict = TRUE); sig.level = .01, delta = 5, sd = 10
    const sizes = [
      twoGroupStudySize({ difference: 10, sd: 15 }, 0.8),
      twoGroupStudySize({ difference: 5, sd: 10, significance: 0.01 }, 0.8),
    ]
    const expected = [36.30565845819, 95.103619786891]
    checkValue({ source, what: 'per group, exact', expected, actual: sizes.map(({ exact }) => exact), ...rootOfR })
    const whole = { tolerance: 0, why: 'whole patients, rounded up' }
    checkValue({ source, what: 'per group', expected: [37, 96], actual: sizes.map(({ n }) => n), ...whole })
    // power.t.test(n = 20, delta = 10, sd = 15, strict = TRUE)
    checkValue({
      source,
      what: 'power of 20 per group',
      expected: 0.53778684667599,
      actual: twoGroupPower({ difference: 10, sd: 15 }, 20),
      tolerance: 1e-10,
      why: 'R gives 13 figures',
    })
  })

  it('paired means', () => {
    // power.t.test(delta, sd = 8, power, type = 'paired', strict = TRUE): (5, .9), (2, .9), (20, .8)
    const sizes = [
      pairedStudySize({ difference: 5, sd: 8 }, 0.9),
      pairedStudySize({ difference: 2, sd: 8 }, 0.9),
      pairedStudySize({ difference: -20, sd: 8 }, 0.8),
    ]
    const expected = [28.88844567792, 170.051069945253, 3.533459889346]
    checkValue({ source, what: 'pairs, exact', expected, actual: sizes.map(({ exact }) => exact), ...rootOfR })
    const whole = { tolerance: 0, why: 'whole patients, rounded up' }
    checkValue({ source, what: 'pairs', expected: [29, 171, 4], actual: sizes.map(({ n }) => n), ...whole })
    // power.t.test(n, delta, sd = 8, type = 'paired', strict = TRUE): (12, 5), (6, 1)
    checkValue({
      source,
      what: 'power of 12 and of 6 pairs',
      expected: [0.50603134619453, 0.05733426312492],
      actual: [pairedPower({ difference: 5, sd: 8 }, 12), pairedPower({ difference: 1, sd: 8 }, 6)],
      tolerance: 1e-10,
      why: 'R gives 13 figures',
    })
  })

  it('two proportions', () => {
    // power.prop.test: (.5, .75, power .9), (.6, .8, power .8), (.9, .95, power .8, sig.level .01); n = 50 for the first
    const sizes = [
      twoProportionStudySize({ first: 0.5, second: 0.75 }, 0.9),
      twoProportionStudySize({ first: 0.6, second: 0.8 }, 0.8),
      twoProportionStudySize({ first: 0.9, second: 0.95, significance: 0.01 }, 0.8),
    ]
    const expected = [76.7069301141077, 81.2242411517736, 646.7421513567953]
    checkValue({ source, what: 'per group, exact', expected, actual: sizes.map(({ exact }) => exact), ...rootOfR })
    checkValue({
      source,
      what: 'power of 50 per group',
      expected: 0.7401659013314,
      actual: twoProportionPower({ first: 0.5, second: 0.75 }, 50),
      tolerance: 1e-10,
      why: 'R gives 13 figures',
    })
  })
})
