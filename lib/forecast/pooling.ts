import { outsideDomain } from '../audiometry/domain.ts'
import type { EvidenceSource } from '../devices/evidence-source.ts'
import { requireFinite } from '../speech/counts.ts'

/** What is believed of one gain: normal, or Student t with these degrees of freedom. dB. */
export interface Belief {
  readonly meanDb: number
  /** standard deviation of the normal, scale of Student t */
  readonly scaleDb: number
  /** absent: normal */
  readonly degreesOfFreedom?: number | undefined
}

/**
 * Belief in the mean and the variance of a normal: mu | s2 ~ N(mean, s2 / ears), s2 ~ scaled inverse chi-squared with
 * `degreesOfFreedom` and `varianceDb2`. `ears` is how many ears the belief in the mean is worth.
 */
export interface NormalInverseGamma {
  readonly meanDb: number
  readonly ears: number
  readonly degreesOfFreedom: number
  readonly varianceDb2: number
}

/** How much a published group counts beside the team's own ears. */
export interface PriorStrength {
  readonly ears: number
  readonly degreesOfFreedom: number
}

export const priorStrength: PriorStrength = { ears: 10, degreesOfFreedom: 10 }

export const priorStrengthChoice: EvidenceSource = {
  id: 'prior-strength',
  citation:
    "Beside the team's own series a published gain counts as much as 10 ears, in its mean and in its spread: little, because centres differ more than device types (Otol Neurotol 2019;40:430-435)",
  status: 'assumption',
}

/** Correlation of the effective gains of the two ears of one patient with the same class and kind of site. */
export const earCorrelation = 0.5

export const earCorrelationChoice: EvidenceSource = {
  id: 'ear-correlation',
  citation:
    'Half of the variance of the gain between patients is taken to belong to the patient and half to the ear: correlation 0.5 of two ears with the same class and kind of site; nothing is published here',
  status: 'assumption',
}

/**
 * The belief that stands for a published mean and SD between patients before the first ear of the team: its predictive
 * distribution has that mean and that variance, s2 (1 + 1/k) n / (n - 2) = SD^2 for k ears and n degrees of freedom.
 * @param evidence mean in dB, SD in dB, positive
 * @param strength ears positive, degrees of freedom above 2, so that the variance exists
 * @throws RangeError naming the argument, its value and its domain
 * Source: Gelman et al., Bayesian Data Analysis, 3rd ed. 2013, section 3.3 (the conjugate prior); matching the variance is
 * a choice of this board
 */
export function priorFrom(
  { meanDb, sdDb }: { readonly meanDb: number; readonly sdDb: number },
  { ears, degreesOfFreedom }: PriorStrength = priorStrength,
): NormalInverseGamma {
  requireFinite('meanDb', meanDb)
  if (!(sdDb > 0 && Number.isFinite(sdDb))) throw outsideDomain('sdDb', sdDb, 'positive')
  if (!(ears > 0)) throw outsideDomain('ears', ears, 'positive')
  if (!(degreesOfFreedom > 2)) throw outsideDomain('degreesOfFreedom', degreesOfFreedom, 'above 2')
  const varianceDb2 = (sdDb ** 2 * (degreesOfFreedom - 2)) / (degreesOfFreedom * (1 + 1 / ears))
  return { meanDb, ears, degreesOfFreedom, varianceDb2 }
}

/**
 * The belief after the gains of further ears, one ear a patient:
 * k' = k + n, mean' = (k mean + n y) / k', nu' = nu + n, nu' s2' = nu s2 + sum (y_i - y)^2 + k n / k' (y - mean)^2.
 * @param gainsDb one gain a patient, dB; none leaves the belief as it is
 * @throws RangeError when a gain is not a finite number
 * Source: Gelman et al., Bayesian Data Analysis, 3rd ed. 2013, section 3.3, equations for the normal with conjugate prior;
 * Murphy, Conjugate Bayesian analysis of the Gaussian distribution, 2007, section 5.
 * Checked by: tests/published/normal-inverse-gamma.test.ts
 */
export function learnFrom(prior: NormalInverseGamma, gainsDb: readonly number[]): NormalInverseGamma {
  const n = gainsDb.length
  if (n === 0) return prior
  for (const [index, gain] of gainsDb.entries()) requireFinite(`gainsDb[${index}]`, gain)
  const mean = gainsDb.reduce((sum, gain) => sum + gain, 0) / n
  const within = gainsDb.reduce((sum, gain) => sum + (gain - mean) ** 2, 0)
  const ears = prior.ears + n
  const degreesOfFreedom = prior.degreesOfFreedom + n
  const between = ((prior.ears * n) / ears) * (mean - prior.meanDb) ** 2
  return {
    meanDb: (prior.ears * prior.meanDb + n * mean) / ears,
    ears,
    degreesOfFreedom,
    varianceDb2: (prior.degreesOfFreedom * prior.varianceDb2 + within + between) / degreesOfFreedom,
  }
}

/**
 * What the belief expects of one further ear: Student t about the mean, scale sqrt(s2 (1 + 1/k)).
 * Source: Gelman et al. 2013, section 3.3; Murphy 2007, section 5.
 */
export const predictiveOf = ({ meanDb, ears, degreesOfFreedom, varianceDb2 }: NormalInverseGamma): Belief => ({
  meanDb,
  scaleDb: Math.sqrt(varianceDb2 * (1 + 1 / ears)),
  degreesOfFreedom,
})

/** The other ear of the patient: what was expected of it before, and what came of it. dB. */
export interface OtherEarGain {
  readonly observedDb: number
  readonly expected: Belief
}

/**
 * Partial pooling with the other ear. The spread between patients is split into a part of the patient, variance r s^2,
 * and a part of the ear, (1 - r) s^2, in units of the spread at each site. The other ear's deviation d then says of the
 * patient's part: precision 1 / r + 1 / (1 - r), mean r d, variance r (1 - r); and this ear is expected at
 * mean + r d s with SD s sqrt(1 - r^2). A measured gain carries its own test error, which the published spread holds.
 * With Student t the same scaling is used and the degrees of freedom are kept: an approximation on the wide side
 * for an ordinary deviation.
 * @param correlation r, 0 (nothing in common) to below 1
 * @throws RangeError naming the argument, its value and its domain
 * Source: Gelman et al. 2013, section 5.4 (normal means, known variance), here with one observed and one new member.
 * Checked by: tests/published/normal-inverse-gamma.test.ts
 */
export function pooledWithOtherEar(
  belief: Belief,
  { observedDb, expected }: OtherEarGain,
  correlation = earCorrelation,
): Belief {
  requireFinite('observedDb', observedDb)
  if (!(correlation >= 0 && correlation < 1)) throw outsideDomain('correlation', correlation, 'from 0 to below 1')
  const deviation = (observedDb - expected.meanDb) / expected.scaleDb
  return {
    ...belief,
    meanDb: belief.meanDb + correlation * deviation * belief.scaleDb,
    scaleDb: belief.scaleDb * Math.sqrt(1 - correlation ** 2),
  }
}
