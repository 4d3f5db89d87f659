import gammaln from '@stdlib/math-base-special-gammaln'
import normalCdf from '@stdlib/stats-base-dists-normal-cdf'
import tCdf from '@stdlib/stats-base-dists-t-cdf'
import { outsideDomain } from '../audiometry/domain.ts'
import { requireFinite } from '../speech/counts.ts'
import type { Distribution } from './distribution.ts'

/**
 * A law with mean 0 and scale 1, symmetric about 0, in the terms of its score:
 * F, and G with G' = -x f; K = integral of G f over the line; H = its running share of K.
 */
interface StandardLaw {
  readonly below: (z: number) => number
  readonly g: (z: number) => number
  readonly k: number
  readonly shareOfK: (z: number) => number
}

const normalDensity = (z: number): number => Math.exp(-(z ** 2) / 2) / Math.sqrt(2 * Math.PI)

const normalLaw: StandardLaw = {
  below: (z) => normalCdf(z, 0, 1),
  g: normalDensity,
  k: 1 / (2 * Math.sqrt(Math.PI)),
  shareOfK: (z) => normalCdf(z * Math.SQRT2, 0, 1),
}

/** The square of a Student density is, but for a constant, a Student density of 2 nu - 1 degrees of freedom. */
function studentLaw(nu: number): StandardLaw {
  const density = (z: number) => constantOf(nu) * (1 + z ** 2 / nu) ** (-(nu + 1) / 2)
  const squared = 2 * nu - 1
  return {
    below: (z) => tCdf(z, nu),
    g: (z) => ((nu + z ** 2) / (nu - 1)) * density(z),
    k: ((nu / (nu - 1)) * constantOf(nu) ** 2 * Math.sqrt(nu / squared)) / constantOf(squared),
    shareOfK: (z) => tCdf(z * Math.sqrt(squared / nu), squared),
  }
}

/** Height of the Student density at 0. */
const constantOf = (nu: number): number => Math.exp(gammaln((nu + 1) / 2) - gammaln(nu / 2)) / Math.sqrt(nu * Math.PI)

const lawOf = ({ degreesOfFreedom: nu }: Distribution): StandardLaw => (nu === undefined ? normalLaw : studentLaw(nu))

/**
 * Continuous ranked probability score, in the unit of the number: the integral of (F(x) - 1{x >= y})^2. 0 for a certain
 * forecast that came true, the absolute error for a certain one that did not; smaller is better.
 *
 * Inside its limits the score is z (2 F(z) - 1) + 2 G(z) - 2 K times the scale, less the integrals of F^2 and (1 - F)^2
 * beyond the limits, where the forecast holds nothing; a result beyond a limit adds its distance from it.
 * @param distribution scale positive, degrees of freedom above 1, low limit below the high one
 * @throws RangeError naming the argument, its value and its domain
 * Source: Gneiting and Raftery, J Am Stat Assoc 102:359-378, 2007, section 4.2 (normal); the forms for Student t
 * and for limits follow by integration in parts and agree with Jordan, Krüger and Lerch, J Stat Softw 90(12), 2019, appendix.
 * Accuracy: 1e-9 relative to the scale. Checked by: tests/published/scoring-rules.test.ts
 */
export function rankedProbabilityScore(distribution: Distribution, result: number): number {
  const { centre, scale, limits } = requireDistribution(distribution)
  requireFinite('result', result)
  const law = lawOf(distribution)
  const held = Math.min(limits.high, Math.max(limits.low, result))
  const z = (held - centre) / scale
  const whole = z * (2 * law.below(z) - 1) + 2 * law.g(z) - 2 * law.k
  const beyond = squareBelow(law, (limits.low - centre) / scale) + squareBelow(law, (centre - limits.high) / scale)
  return Math.abs(result - held) + scale * Math.max(0, whole - beyond)
}

/** Integral of F^2 up to `z`; 0 at minus infinity. */
function squareBelow(law: StandardLaw, z: number): number {
  if (z === Number.NEGATIVE_INFINITY) return 0
  const share = law.below(z)
  return z * share ** 2 + 2 * law.g(z) * share - 2 * law.k * law.shareOfK(z)
}

/** Probability that the forecast gave to results up to this one; over a step at a limit from before to after it. */
export interface ProbabilityTransform {
  readonly low: number
  readonly high: number
}

/**
 * Probability integral transform of a result: uniform between 0 and 1 over a series of calibrated forecasts. At a limit,
 * where the forecast piles up its mass, it is known to lie between two values.
 * @throws RangeError as `rankedProbabilityScore`
 * Source: Czado, Gneiting and Held, Biometrics 65:1254-1261, 2009 (steps are not randomised)
 */
export function probabilityTransform(distribution: Distribution, result: number): ProbabilityTransform {
  const { centre, scale, limits } = requireDistribution(distribution)
  requireFinite('result', result)
  const below = lawOf(distribution).below((result - centre) / scale)
  if (result < limits.low) return { low: 0, high: 0 }
  if (result > limits.high) return { low: 1, high: 1 }
  return { low: result === limits.low ? 0 : below, high: result === limits.high ? 1 : below }
}

function requireDistribution(distribution: Distribution): Distribution {
  const { centre, scale, degreesOfFreedom, limits } = distribution
  requireFinite('centre', centre)
  if (!(scale > 0 && Number.isFinite(scale))) throw outsideDomain('scale', scale, 'positive')
  if (degreesOfFreedom !== undefined && !(degreesOfFreedom > 1))
    throw outsideDomain('degreesOfFreedom', degreesOfFreedom, 'above 1')
  if (!(limits.low < limits.high)) throw outsideDomain('limits.low', limits.low, `below ${limits.high}`)
  return distribution
}
