// Learning from a series and from the other ear, against a printed interval, worked examples, and an integration over
// the unknown mean and variance that shares no formula with the conjugate update.
import tCdf from '@stdlib/stats-base-dists-t-cdf'
import tQuantile from '@stdlib/stats-base-dists-t-quantile'
import { expect, it } from 'vitest'
import { intervalsOf } from '../../lib/forecast/distribution.ts'
import {
  learnFrom,
  type NormalInverseGamma,
  pooledWithOtherEar,
  predictiveOf,
  priorFrom,
} from '../../lib/forecast/pooling.ts'
import { checkValue } from './record-check.ts'

// Newcomb's 66 measurements of the speed of light: mean 26.2, SD 10.8, 95 % interval of the mean 23.6 to 28.8. Two halves
// at mean -+ SD sqrt(65/66) have that mean and SD; a prior worth nothing leaves the data alone.
it('finds the interval of the mean of 66 measurements', () => {
  const off = 10.8 * Math.sqrt(65 / 66)
  const sample = Array.from({ length: 66 }, (_, index) => 26.2 + (index % 2 === 0 ? off : -off))
  const vague = { meanDb: 0, ears: 1e-9, degreesOfFreedom: 1e-9, varianceDb2: 1 }
  const { meanDb, ears, degreesOfFreedom, varianceDb2 } = learnFrom(vague, sample)
  const half = tQuantile(0.975, degreesOfFreedom) * Math.sqrt(varianceDb2 / ears)
  checkValue({
    source:
      'Gelman et al., Bayesian Data Analysis, 3rd ed. 2013, section 3.2: speed of light (from memory, unconfirmed)',
    what: '95 % interval of the mean',
    expected: [23.6, 28.8],
    actual: [meanDb - half, meanDb + half],
    tolerance: 0.05,
    why: 'printed with one decimal',
  })
})

const prior: NormalInverseGamma = { meanDb: 0, ears: 2, degreesOfFreedom: 4, varianceDb2: 9 }
const gains = [4, 6, 8]

// k' = 5, mean' = 18 / 5, nu' = 7, nu' s2' = 36 + 8 + 2 x 3 / 5 x 36 = 87.2; scale sqrt(87.2 / 7 x 1.2)
it('updates mean and variance as worked by hand', () => {
  const learned = learnFrom(prior, gains)
  checkValue({
    source: 'Gelman et al. 2013, section 3.3, worked by hand',
    what: 'mean, ears, degrees of freedom, variance and predictive scale after 4, 6 and 8 dB',
    expected: [3.6, 5, 7, 12.457142857, 3.866338],
    actual: [
      learned.meanDb,
      learned.ears,
      learned.degreesOfFreedom,
      learned.varianceDb2,
      predictiveOf(learned).scaleDb,
    ],
    tolerance: 1e-6,
    why: 'worked to six decimals',
  })
})

/** P(next gain <= x) by summing over a grid of mean and logarithm of the variance. */
function integratedPredictive(x: number): number {
  let mass = 0
  let below = 0
  for (let log = Math.log(0.4); log < Math.log(4000); log += 0.04) {
    const variance = Math.exp(log)
    const ofVariance =
      -(prior.degreesOfFreedom / 2) * log - (prior.degreesOfFreedom * prior.varianceDb2) / (2 * variance)
    const sd = Math.sqrt(variance)
    for (let mean = -40; mean <= 47; mean += 0.25) {
      const ofMean = -0.5 * log - (prior.ears * (mean - prior.meanDb) ** 2) / (2 * variance)
      const likelihood = gains.reduce((sum, gain) => sum - 0.5 * log - (gain - mean) ** 2 / (2 * variance), 0)
      const weight = Math.exp(ofVariance + ofMean + likelihood)
      mass += weight
      below += weight * normalBelow((x - mean) / sd)
    }
  }
  return below / mass
}

/** Abramowitz and Stegun 1964, 7.1.26: error below 1.5e-7. */
function normalBelow(z: number): number {
  const y = Math.abs(z) / Math.SQRT2
  const t = 1 / (1 + 0.3275911 * y)
  const tail =
    t * (0.254829592 + t * (-0.284496736 + t * (1.421413741 + t * (-1.453152027 + t * 1.061405429)))) * Math.exp(-y * y)
  return z >= 0 ? 1 - tail / 2 : tail / 2
}

it.each([-4, 0, 3.6, 7, 12])('expects a further ear as the integration does, at %d dB', (x) => {
  const { meanDb, scaleDb, degreesOfFreedom } = predictiveOf(learnFrom(prior, gains))
  checkValue({
    source: 'Numerical integration over mean and variance',
    what: `predictive probability below ${x} dB`,
    expected: integratedPredictive(x),
    actual: tCdf((x - meanDb) / scaleDb, degreesOfFreedom ?? Number.NaN),
    tolerance: 2e-4,
    why: 'grid of 0.25 dB and 4 % of variance',
  })
})

it('begins where the published mean and SD stand', () => {
  const { meanDb, scaleDb, degreesOfFreedom = 0 } = predictiveOf(priorFrom({ meanDb: -3, sdDb: 8 }))
  expect(meanDb).toBe(-3)
  expect(scaleDb ** 2 * (degreesOfFreedom / (degreesOfFreedom - 2))).toBeCloseTo(64, 9)
  const { interval } = intervalsOf({
    centre: meanDb,
    scale: scaleDb,
    degreesOfFreedom,
    limits: { low: Number.NEGATIVE_INFINITY, high: Number.POSITIVE_INFINITY },
  })
  expect(interval.high).toBeCloseTo(-3 + tQuantile(0.9, 10) * scaleDb, 3)
})

// Patient's part p ~ N(0, r), ear's part N(0, 1 - r), in units of an SD of 8 dB; the other ear lies 12 dB above.
it.each([0, 0.3, 0.5, 0.9])('pools with the other ear as an integration over the shared part does, r = %d', (r) => {
  const pooled = pooledWithOtherEar(
    { meanDb: -3, scaleDb: 8 },
    { observedDb: 14, expected: { meanDb: 2, scaleDb: 8 } },
    r,
  )
  const d = 12 / 8
  const steps = Array.from({ length: 4001 }, (_, index) => (index - 2000) / 400)
  const weights = steps.map((p) =>
    r === 0 ? Number(p === 0) : Math.exp(-(p ** 2) / (2 * r) - (d - p) ** 2 / (2 * (1 - r))),
  )
  const mass = weights.reduce((sum, weight) => sum + weight, 0)
  const mean = steps.reduce((sum, p, index) => sum + p * (weights[index] ?? 0), 0) / mass
  const square = steps.reduce((sum, p, index) => sum + p ** 2 * (weights[index] ?? 0), 0) / mass
  checkValue({
    source: 'Numerical integration over the part of the patient',
    what: `mean and SD of this ear, correlation ${r}, dB`,
    expected: [-3 + 8 * mean, 8 * Math.sqrt(square - mean ** 2 + 1 - r)],
    actual: [pooled.meanDb, pooled.scaleDb],
    tolerance: 1e-6,
    why: 'grid of 1/400 SD',
  })
})

it.each([
  () => priorFrom({ meanDb: Number.NaN, sdDb: 8 }),
  () => priorFrom({ meanDb: 0, sdDb: 0 }),
  () => priorFrom({ meanDb: 0, sdDb: 8 }, { ears: 0, degreesOfFreedom: 10 }),
  () => priorFrom({ meanDb: 0, sdDb: 8 }, { ears: 5, degreesOfFreedom: 2 }),
  () => learnFrom(prior, [1, Number.POSITIVE_INFINITY]),
  () => pooledWithOtherEar({ meanDb: 0, scaleDb: 8 }, { observedDb: 3, expected: { meanDb: 0, scaleDb: 8 } }, 1),
  () => pooledWithOtherEar({ meanDb: 0, scaleDb: 8 }, { observedDb: Number.NaN, expected: { meanDb: 0, scaleDb: 8 } }),
])('refuses what is out of domain, naming it (%#)', (refused) => {
  expect(refused).toThrow(/is .*, but must be/)
})
