import logGamma from '@stdlib/math-base-special-gammaln'
import betaCdf from '@stdlib/stats-base-dists-beta-cdf'
import normalCdf from '@stdlib/stats-base-dists-normal-cdf'
import { outsideDomain, requireWithin } from '../audiometry/domain.ts'
import { requireFinite } from '../speech/counts.ts'

/** Beyond this the series starts from exp(-ncp² / 2) = 0 in double precision. */
const seriesLimit = 37

const errorBound = 1e-13

/**
 * Cumulative distribution of the non-central t: P(T <= t) with `degreesOfFreedom` and non-centrality `ncp`.
 *
 * Algorithm AS 243 (Lenth, Appl Stat 38:185-189, 1989): a sum of incomplete beta functions with Poisson weights. Above
 * an absolute non-centrality of 37 the normal approximation 26.7.10 of Abramowitz and Stegun 1964 (absolute error
 * below 0.001 for 10 or more degrees of freedom).
 * @param t finite number
 * @param degreesOfFreedom above 0, need not be an integer, at most 1e7
 * @param ncp -1000 to 1000
 * @returns probability, 0 to 1; absolute error below 1e-10 up to a non-centrality of 37 and 10,000 degrees
 * of freedom, below 1e-6 above
 * @throws RangeError naming the argument, its value and its domain
 * Checked by: tests/published/r-4-2-study-size.test.ts
 */
export function nonCentralTCdf(t: number, degreesOfFreedom: number, ncp: number): number {
  requireFinite('t', t)
  if (!(degreesOfFreedom > 0 && degreesOfFreedom <= 1e7)) {
    throw outsideDomain('degreesOfFreedom', degreesOfFreedom, 'above 0 and at most 1e7')
  }
  requireWithin('ncp', ncp, -1000, 1000, '(non-centrality)')
  if (Math.abs(ncp) > seriesLimit) return normalApproximation(t, degreesOfFreedom, ncp)
  return t >= 0 ? upToPositive(t, degreesOfFreedom, ncp) : 1 - upToPositive(-t, degreesOfFreedom, -ncp)
}

/** P(T <= t) for t >= 0: the part below zero, and the series for the rest. */
function upToPositive(t: number, degreesOfFreedom: number, ncp: number): number {
  const belowZero = normalCdf(-ncp, 0, 1)
  const x = t ** 2 / (t ** 2 + degreesOfFreedom)
  const probability = x > 0 ? belowZero + lenthSeries(x, degreesOfFreedom / 2, ncp) : belowZero
  return Math.min(1, Math.max(0, probability))
}

/** Names as in AS 243: p and q are Poisson weights, xodd and xeven incomplete beta functions, godd and geven their steps. */
function lenthSeries(x: number, b: number, ncp: number): number {
  const lambda = ncp ** 2
  let p = 0.5 * Math.exp(-lambda / 2)
  let q = Math.sqrt(2 / Math.PI) * p * ncp
  let remainder = 0.5 - p
  let a = 0.5
  const logBeta = Math.log(Math.PI) / 2 + logGamma(b) - logGamma(b + 0.5)
  const complement = Math.exp(b * Math.log1p(-x))
  let xodd = betaCdf(x, a, b)
  let godd = 2 * Math.exp(a * Math.log(x) + b * Math.log1p(-x) - logBeta)
  let xeven = -Math.expm1(b * Math.log1p(-x))
  let geven = b * x * complement
  let sum = p * xodd + q * xeven
  for (let term = 1; 2 * remainder * (xodd - godd) > errorBound && term < 10_000; term++) {
    a += 1
    xodd -= godd
    xeven -= geven
    godd *= (x * (a + b - 1)) / a
    geven *= (x * (a + b - 0.5)) / (a + 0.5)
    p *= lambda / (2 * term)
    q *= lambda / (2 * term + 1)
    remainder -= p
    sum += p * xodd + q * xeven
  }
  return sum
}

function normalApproximation(t: number, degreesOfFreedom: number, ncp: number): number {
  const shrink = 1 - 1 / (4 * degreesOfFreedom)
  return normalCdf((t * shrink - ncp) / Math.sqrt(1 + t ** 2 / (2 * degreesOfFreedom)), 0, 1)
}
