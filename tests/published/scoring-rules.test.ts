// Values from the tests of the R package scoringRules 1.1.3 (test-crps_norm.R, test-crps_t.R; read at rdrr.io): its crps_norm(-3),
// crps_t(-3, 5). N(0, 1) at 0: (sqrt(2) - 1) / sqrt(pi), the closed form of Gneiting and Raftery 2007, section 4.2.

import normalCdf from '@stdlib/stats-base-dists-normal-cdf'
import tCdf from '@stdlib/stats-base-dists-t-cdf'
import { describe, expect, it } from 'vitest'
import { probabilityTransform, rankedProbabilityScore } from '../../lib/forecast/crps.ts'
import type { Distribution } from '../../lib/forecast/distribution.ts'
import { checkValue } from './record-check.ts'

const unlimited = { low: Number.NEGATIVE_INFINITY, high: Number.POSITIVE_INFINITY }
const normal = (centre = 0, scale = 1): Distribution => ({ centre, scale, limits: unlimited })
const student = (degreesOfFreedom: number): Distribution => ({ ...normal(), degreesOfFreedom })

it.each([
  { what: 'normal at -3', distribution: normal(), result: -3, expected: 2.43657473 },
  { what: 'normal at -2.9 about 0.1', distribution: normal(0.1), result: -2.9, expected: 2.43657473 },
  { what: 'normal of SD 0.9 at -2.7', distribution: normal(0, 0.9), result: -2.7, expected: 2.43657473 * 0.9 },
  { what: 'Student t of 5 degrees of freedom at -3', distribution: student(5), result: -3, expected: 2.33875895 },
])('scores the $what', ({ what, distribution, result, expected }) => {
  checkValue({
    source: 'scoringRules 1.1.3 (R), tests of crps_norm and crps_t',
    what,
    expected,
    actual: rankedProbabilityScore(distribution, result),
    tolerance: 5e-9,
    why: 'given with eight decimals',
  })
})

it('scores a standard normal at its mean', () => {
  checkValue({
    source: 'Gneiting and Raftery, J Am Stat Assoc 102:359-378, 2007, section 4.2',
    what: 'normal at its mean: (sqrt(2) - 1) / sqrt(pi)',
    expected: 0.23369497725510907,
    actual: rankedProbabilityScore(normal(), 0),
    tolerance: 1e-12,
    why: 'closed form',
  })
})

/** The definition, by the midpoint rule over +-60 scales. */
function integrated({ centre, scale, degreesOfFreedom, limits }: Distribution, result: number): number {
  const belowAt = (x: number) => {
    if (x < limits.low) return 0
    if (x >= limits.high) return 1
    const z = (x - centre) / scale
    return degreesOfFreedom === undefined ? normalCdf(z, 0, 1) : tCdf(z, degreesOfFreedom)
  }
  const step = scale / 500
  let sum = 0
  for (let x = centre - 60 * scale + step / 2; x < centre + 60 * scale; x += step)
    sum += (belowAt(x) - (x >= result ? 1 : 0)) ** 2 * step
  return sum
}

const cases: readonly { distribution: Distribution; result: number }[] = [
  { distribution: normal(38, 10), result: 51 },
  { distribution: { centre: 20, scale: 9, limits: { low: 15, high: Number.POSITIVE_INFINITY } }, result: 30 },
  { distribution: { centre: 20, scale: 9, limits: { low: 15, high: Number.POSITIVE_INFINITY } }, result: 15 },
  { distribution: { centre: 20, scale: 9, limits: { low: 15, high: Number.POSITIVE_INFINITY } }, result: 5 },
  { distribution: { centre: 12, scale: 9, limits: { low: 15, high: 25 } }, result: 40 },
  { distribution: { ...student(13), centre: 3, scale: 8, limits: { low: -4, high: 10 } }, result: 6 },
  { distribution: { ...student(3), centre: 3, scale: 8, limits: { low: -4, high: 10 } }, result: 14 },
]

it.each(cases)('agrees with the integral of the definition (%#)', ({ distribution, result }) => {
  checkValue({
    source: 'Numerical integration of the definition of the score',
    what: `score at ${result} about ${distribution.centre}, scale ${distribution.scale}, limits ${distribution.limits.low} to ${distribution.limits.high}`,
    expected: integrated(distribution, result),
    actual: rankedProbabilityScore(distribution, result),
    tolerance: distribution.scale * 2e-3,
    why: 'midpoint rule with steps of 1/500 of the scale, at whose ends the steps lie',
  })
})

describe('the probability of a result under its forecast', () => {
  it('is the distribution function inside the limits', () => {
    expect(probabilityTransform(normal(), 1.2815515655446004).low).toBeCloseTo(0.9, 12)
  })
  it('lies between two values at a limit and outside is certain', () => {
    const floored = { centre: 15, scale: 9, limits: { low: 15, high: Number.POSITIVE_INFINITY } }
    expect(probabilityTransform(floored, 15)).toEqual({ low: 0, high: 0.5 })
    expect(probabilityTransform(floored, 10)).toEqual({ low: 0, high: 0 })
  })
})

it.each([
  () => rankedProbabilityScore(normal(0, 0), 1),
  () => rankedProbabilityScore(student(1), 1),
  () => rankedProbabilityScore(normal(), Number.NaN),
  () => rankedProbabilityScore({ ...normal(), limits: { low: 3, high: 3 } }, 1),
])('refuses what is out of domain, naming it (%#)', (refused) => {
  expect(refused).toThrow(/is .*, but must be/)
})
