// SciPy 1.17.1: multivariate_normal.logpdf(deviation, zeros, covariance), called as in the titles.

import { expect, it } from 'vitest'
import { normalLogDensity } from '../../lib/forecast/normal-density.ts'
import { checkValue } from './record-check.ts'

const alike = (sds: readonly number[], correlation: number) =>
  sds.map((a, i) => sds.map((b, j) => (i === j ? a * b : correlation * a * b)))

it.each([
  { what: 'of one value', deviation: [0.5], covariance: [[4]], expected: -1.643335713764618 },
  {
    what: 'of three values',
    deviation: [1, -2, 0.5],
    covariance: [
      [4, 1.2, 0.5],
      [1.2, 9, -0.7],
      [0.5, -0.7, 2.25],
    ],
    expected: -5.336446205841439,
  },
  {
    what: 'of four alike',
    deviation: [12, 10, 14, 9],
    covariance: alike([8, 7, 9, 10], 0.6),
    expected: -12.977137465171674,
  },
])('gives the log density $what', ({ what, deviation, covariance, expected }) => {
  checkValue({
    source: 'SciPy 1.17.1, multivariate_normal.logpdf',
    what,
    expected,
    actual: normalLogDensity(deviation, covariance),
    tolerance: 1e-12,
    why: 'double precision on both sides',
  })
})

it('refuses what is no covariance', () => {
  expect(() =>
    normalLogDensity(
      [1, 2],
      [
        [1, 2],
        [2, 1],
      ],
    ),
  ).toThrow(/positive definite/)
  expect(() => normalLogDensity([1, 2], [[1]])).toThrow(/2 by 2/)
})
