import { describe, expect, it } from 'vitest'
import { limitsOfAgreement } from '../../../lib/outcomes/bland-altman.ts'
import { hodgesLehmann, hodgesLehmannShift } from '../../../lib/outcomes/hodges-lehmann.ts'
import { meanSummary, pairedDifference, welchDifference } from '../../../lib/outcomes/mean-interval.ts'
import { nonCentralTCdf } from '../../../lib/outcomes/non-central-t.ts'
import { exactMcNemar, proportionDifference, proportionSummary } from '../../../lib/outcomes/proportions.ts'
import {
  pairedPower,
  pairedStudySize,
  twoGroupStudySize,
  twoProportionPower,
  twoProportionStudySize,
} from '../../../lib/outcomes/study-size.ts'

describe('series without spread', () => {
  it('have an interval of no width', () => {
    expect(meanSummary([20, 20, 20])).toMatchObject({ value: 20, sd: 0, low: 20, high: 20, min: 20, max: 20 })
  })

  it('differ certainly or not at all', () => {
    expect(pairedDifference([30, 40], [20, 30])).toMatchObject({ value: 10, t: Number.POSITIVE_INFINITY, pValue: 0 })
    expect(welchDifference([20, 20], [20, 20])).toMatchObject({ value: 0, t: 0, pValue: 1, degreesOfFreedom: 2 })
  })
})

describe('Hodges-Lehmann', () => {
  it('says when a sample is too small for the confidence asked for', () => {
    // Five values: the whole range of Walsh averages holds 1 - 2 / 32 = 0.9375.
    const { low, high, achievedConfidence, limits } = hodgesLehmann([1, 2, 3, 4, 10])
    expect({ low, high, achievedConfidence, limits }).toEqual({
      low: 1,
      high: 10,
      achievedConfidence: 0.9375,
      limits: 'exact',
    })
    expect(hodgesLehmann([1, 2, 3, 4, 10, 11]).achievedConfidence).toBe(0.96875)
  })

  it('changes to the normal approximation at 50 values', () => {
    const values = Array.from({ length: 50 }, (_, index) => index)
    expect(hodgesLehmann(values.slice(1)).limits).toBe('exact')
    expect(hodgesLehmann(values).limits).toBe('normal-approximation')
    expect(hodgesLehmannShift(values, values.slice(0, 5)).limits).toBe('normal-approximation')
  })

  it('gives nearly the same limits on both sides of the change', () => {
    const values = (length: number) => Array.from({ length }, (_, index) => index / length)
    const [exact, approximate] = [hodgesLehmann(values(49)), hodgesLehmann(values(50))]
    expect(exact.high - exact.low).toBeCloseTo(approximate.high - approximate.low, 1)
  })
})

describe('limits of agreement', () => {
  it('name the direction by their sign', () => {
    const { bias, lower, upper } = limitsOfAgreement([10, 20, 30], [12, 21, 33])
    expect(bias.value).toBe(-2)
    expect(lower.value).toBeLessThan(upper.value)
  })
})

describe('study size', () => {
  it('is at least two, however large the effect', () => {
    expect(pairedStudySize({ difference: 1000, sd: 1 }, 0.8)).toMatchObject({ n: 2, exact: 2, per: 'pairs' })
  })

  it('is larger than the normal approximation says', () => {
    // Normal: (1.96 + 0.8416)² (8 / 5)² = 20.1
    const normal = (1.959964 + 0.8416212) ** 2 * (8 / 5) ** 2
    expect(pairedStudySize({ difference: 5, sd: 8 }, 0.8).exact).toBeGreaterThan(normal + 1)
  })

  it('is certain for proportions of 0 and 1', () => {
    expect(twoProportionPower({ first: 0, second: 1 }, 10)).toBe(1)
    expect(twoProportionPower({ first: 0, second: 1 }, 2)).toBe(1)
  })
})

describe('statistics out of domain', () => {
  it.each([
    { call: () => meanSummary([]), message: /length of values is 0.*at least 2/ },
    { call: () => meanSummary([5]), message: /length of values is 1/ },
    { call: () => meanSummary([1, Number.NaN]), message: /values\[1\] is NaN/ },
    { call: () => meanSummary([1, 2], 95), message: /confidence is 95/ },
    { call: () => pairedDifference([1, 2, 3], [1, 2]), message: /length of second is 2.*3/ },
    { call: () => pairedDifference([1, Number.POSITIVE_INFINITY], [1, 2]), message: /first\[1\] is Infinity/ },
    { call: () => welchDifference([1, 2], [1]), message: /length of second is 1/ },
    { call: () => hodgesLehmann([1]), message: /length of values is 1/ },
    { call: () => hodgesLehmannShift([1, 2], [1, 2], 0), message: /confidence is 0/ },
    { call: () => hodgesLehmann(new Array<number>(1414).fill(1)), message: /number of pairs of values is 1000405/ },
    { call: () => limitsOfAgreement([1, 2], [1, 2], { coverage: 1.96 }), message: /coverage is 1.96/ },
    { call: () => proportionSummary({ events: 3, total: 0 }), message: /count.total is 0/ },
    {
      call: () => proportionDifference({ events: 3, total: 2 }, { events: 1, total: 2 }),
      message: /first.events is 3/,
    },
    { call: () => exactMcNemar(-1, 3), message: /onlyFirst is -1/ },
    { call: () => pairedPower({ difference: 0, sd: 1 }, 10), message: /difference is 0/ },
    { call: () => pairedPower({ difference: 5, sd: 0 }, 10), message: /sd is 0/ },
    { call: () => pairedPower({ difference: 5, sd: 8 }, 1), message: /pairs is 1.*from 2/ },
    { call: () => pairedStudySize({ difference: 5, sd: 8 }, 80), message: /power is 80/ },
    { call: () => twoGroupStudySize({ difference: 0.001, sd: 100 }, 0.8), message: /study size is more than 1000000/ },
    { call: () => twoProportionStudySize({ first: 0.5, second: 0.5 }, 0.8), message: /second is 0.5.*different/ },
    { call: () => twoProportionStudySize({ first: -0.5, second: 0.5 }, 0.8), message: /first is -0.5/ },
    { call: () => nonCentralTCdf(1, 0, 1), message: /degreesOfFreedom is 0/ },
    { call: () => nonCentralTCdf(Number.NaN, 5, 1), message: /t is NaN/ },
    { call: () => nonCentralTCdf(1, 5, 5000), message: /ncp is 5000/ },
  ])('are refused: $message', ({ call, message }) => {
    expect(call).toThrow(RangeError)
    expect(call).toThrow(message)
  })
})
