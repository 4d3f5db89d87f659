import betaCdf from '@stdlib/stats-base-dists-beta-cdf'
import fc from 'fast-check'
import { expect, it } from 'vitest'
import { binomialAtMost } from '../../../lib/speech/binomial.ts'

/** Abramowitz and Stegun 1964, 26.5.24: the sum of binomial terms is an incomplete beta function. */
it('the sum of terms equals the incomplete beta function of another library', () => {
  const trialsAndHits = fc
    .integer({ min: 1, max: 1000 })
    .chain((n) => fc.tuple(fc.constant(n), fc.integer({ min: 0, max: n - 1 })))
  fc.assert(
    fc.property(trialsAndHits, fc.double({ min: 0.001, max: 0.999, noNaN: true }), ([n, k], p) => {
      expect(Math.abs(binomialAtMost(k, n, p) - betaCdf(1 - p, n - k, k + 1))).toBeLessThan(1e-11)
    }),
    { numRuns: 500 },
  )
})

it('takes whole and no probability, and nothing outside', () => {
  expect([binomialAtMost(3, 10, 0), binomialAtMost(3, 10, 1), binomialAtMost(10, 10, 1)]).toEqual([1, 0, 1])
  expect(() => binomialAtMost(3, 10, 1.2)).toThrow(RangeError)
})
