// Two-sided 50 and 80 % points of Student t as printed in Abramowitz and Stegun 1964, table 26.10 (A = 0.5 and 0.8), three
// decimals, from memory and equal to @stdlib/stats-base-dists-t-quantile, which is asked beside it at more places.
import tQuantile from '@stdlib/stats-base-dists-t-quantile'
import { expect, it } from 'vitest'
import { studentDeviate, z50, z80 } from '../../lib/forecast/distribution.ts'
import { checkValue } from './record-check.ts'

it.each([
  { degrees: 5, inner: 0.727, outer: 1.476 },
  { degrees: 10, inner: 0.7, outer: 1.372 },
  { degrees: 30, inner: 0.683, outer: 1.31 },
])('expands the quantile of Student t with $degrees degrees of freedom', ({ degrees, inner, outer }) => {
  checkValue({
    source: 'Abramowitz and Stegun 1964, table 26.10: percentage points of Student t (from memory, unconfirmed)',
    what: `two-sided 50 and 80 % points, ${degrees} degrees of freedom`,
    expected: [inner, outer],
    actual: [studentDeviate(z50, degrees), studentDeviate(z80, degrees)],
    tolerance: 0.0006,
    why: 'printed with three decimals',
  })
})

it('stays within the stated error of the exact quantile', () => {
  for (const degrees of [3, 4, 6, 8, 10.5, 20, 100, 1e5]) {
    const tolerance = degrees < 8 ? 1e-3 : 2e-5
    expect(Math.abs(studentDeviate(z50, degrees) - tQuantile(0.75, degrees))).toBeLessThan(tolerance)
    expect(Math.abs(studentDeviate(z80, degrees) - tQuantile(0.9, degrees))).toBeLessThan(tolerance)
  }
})
