import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { limitsOfAgreement } from '../../lib/outcomes/bland-altman.ts'
import { hodgesLehmann, hodgesLehmannShift } from '../../lib/outcomes/hodges-lehmann.ts'
import { meanSummary, pairedDifference, welchDifference } from '../../lib/outcomes/mean-interval.ts'
import { nonCentralTCdf } from '../../lib/outcomes/non-central-t.ts'
import { exactMcNemar, proportionDifference } from '../../lib/outcomes/proportions.ts'
import type { Estimate } from '../../lib/outcomes/series-method.ts'
import { pairedPower, pairedStudySize, twoGroupPower, twoProportionPower } from '../../lib/outcomes/study-size.ts'

/** Averages of four thresholds in 5 dB steps: what the board really holds, ties included. */
const averageDbHl = fc.integer({ min: -16, max: 104 }).map((steps) => steps * 1.25)
const series = fc.array(averageDbHl, { minLength: 2, maxLength: 60 })
const pairs = fc.array(fc.tuple(averageDbHl, averageDbHl), { minLength: 2, maxLength: 40 })

function expectHolding({ low, value, high }: Estimate): void {
  expect(low).toBeLessThanOrEqual(value + 1e-9)
  expect(high).toBeGreaterThanOrEqual(value - 1e-9)
}

function expectMirrored(there: Estimate, back: Estimate): void {
  expect(back.value).toBeCloseTo(-there.value, 9)
  expect(back.low).toBeCloseTo(-there.high, 9)
  expect(back.high).toBeCloseTo(-there.low, 9)
}

describe('intervals', () => {
  it('hold the estimate and are finite for every series, constant ones too', () => {
    fc.assert(
      fc.property(series, series, (a, b) => {
        const estimates = [meanSummary(a), welchDifference(a, b), hodgesLehmann(a), hodgesLehmannShift(a, b)]
        for (const estimate of estimates) {
          expectHolding(estimate)
          expect([estimate.low, estimate.value, estimate.high]).toSatisfy((limits: number[]) =>
            limits.every(Number.isFinite),
          )
        }
      }),
    )
  })

  it('are mirrored when the two sides are exchanged', () => {
    fc.assert(
      fc.property(series, series, (a, b) => {
        expectMirrored(welchDifference(a, b), welchDifference(b, a))
        expectMirrored(hodgesLehmannShift(a, b), hodgesLehmannShift(b, a))
      }),
    )
    fc.assert(
      fc.property(pairs, (both) => {
        const [first, second] = [both.map(([value]) => value), both.map(([, value]) => value)]
        expectMirrored(pairedDifference(first, second), pairedDifference(second, first))
        const [there, back] = [limitsOfAgreement(first, second), limitsOfAgreement(second, first)]
        expectMirrored(there.bias, back.bias)
        expectMirrored(there.lower, back.upper)
      }),
    )
  })

  it('do not depend on the order of the patients', () => {
    fc.assert(
      fc.property(series, (values) => {
        const reversed = values.toReversed()
        expect(meanSummary(reversed).low).toBeCloseTo(meanSummary(values).low, 9)
        expect(hodgesLehmann(reversed)).toEqual(hodgesLehmann(values))
      }),
    )
  })

  it('shrink when the same values are seen in more patients', () => {
    fc.assert(
      fc.property(series, (values) => {
        fc.pre(new Set(values).size > 1)
        const width = (of: readonly number[]) => meanSummary(of).high - meanSummary(of).low
        expect(width([...values, ...values])).toBeLessThan(width(values))
      }),
    )
  })

  it('move with the data', () => {
    fc.assert(
      fc.property(series, averageDbHl, (values, shift) => {
        const moved = values.map((value) => value + shift)
        expect(hodgesLehmann(moved).low).toBeCloseTo(hodgesLehmann(values).low + shift, 9)
        expect(meanSummary(moved).high).toBeCloseTo(meanSummary(values).high + shift, 9)
      }),
    )
  })
})

describe('proportions', () => {
  const count = fc
    .integer({ min: 1, max: 200 })
    .chain((total) => fc.record({ events: fc.integer({ min: 0, max: total }), total: fc.constant(total) }))

  it('differ within -1 and 1, mirrored in the other order', () => {
    fc.assert(
      fc.property(count, count, (a, b) => {
        const there = proportionDifference(a, b)
        expectHolding(there)
        expectMirrored(there, proportionDifference(b, a))
        expect(there.low).toBeGreaterThanOrEqual(-1 - 1e-12)
        expect(there.high).toBeLessThanOrEqual(1 + 1e-12)
      }),
    )
  })

  it('McNemar is symmetric and falls as the split becomes more uneven', () => {
    const small = fc.integer({ min: 0, max: 60 })
    fc.assert(
      fc.property(small, small, (a, b) => {
        const { pValue } = exactMcNemar(a, b)
        expect(exactMcNemar(b, a).pValue).toBe(pValue)
        expect(pValue).toBeGreaterThan(0)
        expect(pValue).toBeLessThanOrEqual(1)
        const total = a + b
        const uneven = Math.max(0, Math.min(a, b) - 1)
        expect(exactMcNemar(uneven, total - uneven).pValue).toBeLessThanOrEqual(pValue)
      }),
    )
  })
})

describe('power', () => {
  const effect = fc.record({
    difference: fc.double({ min: 0.5, max: 30, noNaN: true }),
    sd: fc.double({ min: 1, max: 30, noNaN: true }),
    significance: fc.constantFrom(0.01, 0.05, 0.1),
  })
  const size = fc.integer({ min: 2, max: 300 })

  it('rises with the number of patients and stays above the significance level', () => {
    fc.assert(
      fc.property(effect, size, (wanted, n) => {
        for (const power of [pairedPower, twoGroupPower]) {
          expect(power(wanted, n + 1)).toBeGreaterThanOrEqual(power(wanted, n) - 1e-9)
          expect(power(wanted, n)).toBeGreaterThanOrEqual(wanted.significance - 1e-9)
          expect(power(wanted, n)).toBeLessThanOrEqual(1)
        }
      }),
    )
  })

  it('of proportions rises with the number of patients', () => {
    const unit = fc.double({ min: 0, max: 1, noNaN: true })
    fc.assert(
      fc.property(unit, unit, size, (first, second, n) => {
        fc.pre(first !== second)
        const power = (patients: number) => twoProportionPower({ first, second }, patients)
        expect(power(n + 1)).toBeGreaterThanOrEqual(power(n))
      }),
    )
  })

  it('is reached by the study size and not by one patient fewer', () => {
    const strong = fc.record({
      difference: fc.double({ min: 2, max: 30, noNaN: true }),
      sd: fc.double({ min: 1, max: 30, noNaN: true }),
    })
    fc.assert(
      fc.property(strong, fc.constantFrom(0.5, 0.8, 0.9), (wanted, target) => {
        const { n, power } = pairedStudySize(wanted, target)
        expect(power).toBeGreaterThanOrEqual(target - 1e-9)
        if (n > 2) expect(pairedPower(wanted, n - 1)).toBeLessThan(target)
      }),
      { numRuns: 40 },
    )
  })

  it('stands on a distribution that rises with t and falls with the non-centrality', () => {
    const t = fc.double({ min: -40, max: 40, noNaN: true })
    const degreesOfFreedom = fc.double({ min: 1, max: 500, noNaN: true })
    const ncp = fc.double({ min: -30, max: 30, noNaN: true })
    fc.assert(
      fc.property(t, degreesOfFreedom, ncp, fc.double({ min: 0, max: 5, noNaN: true }), (at, df, shift, more) => {
        const probability = nonCentralTCdf(at, df, shift)
        expect(probability).toBeGreaterThanOrEqual(0)
        expect(probability).toBeLessThanOrEqual(1)
        expect(nonCentralTCdf(at + more, df, shift)).toBeGreaterThanOrEqual(probability - 1e-9)
        expect(nonCentralTCdf(at, df, shift + more)).toBeLessThanOrEqual(probability + 1e-9)
        expect(nonCentralTCdf(-at, df, -shift)).toBeCloseTo(1 - probability, 9)
      }),
    )
  })
})
