/** Low and high end of an interval or of a working range, in the unit of the number. */
export interface Range {
  readonly low: number
  readonly high: number
}

/** Confidence of the outer and of the inner interval of every estimate, in percent. */
export const intervalConfidence = 80
export const innerConfidence = 50

/** Standard normal quantile of 0.9: half-width of a two-sided 80 % interval in standard deviations. */
export const z80 = 1.2815515655446004
/** Standard normal quantile of 0.75: half-width of a two-sided 50 % interval in standard deviations. */
export const z50 = 0.6744897501960817

/**
 * What is believed of one number before it is held inside its limits: normal, or Student t where the spread itself was
 * learned from few ears.
 */
export interface Distribution {
  /** mean, in the unit of the number; may lie outside the limits, where the shown value is the limit */
  readonly centre: number
  /** standard deviation of the normal, scale of Student t; positive */
  readonly scale: number
  /** absent: normal */
  readonly degreesOfFreedom?: number
  /** values beyond are piled up at the limit; infinite where there is none */
  readonly limits: Range
}

/** The inner (50 %) and the outer (80 %) interval. */
export interface Intervals {
  readonly interval50: Range
  readonly interval: Range
}

const clamp = (value: number, { low, high }: Range): number => Math.min(high, Math.max(low, value))

export const clampedRange = (range: Range, limits: Range): Range => ({
  low: clamp(range.low, limits),
  high: clamp(range.high, limits),
})

export const clampedCentre = ({ centre, limits }: Distribution): number => clamp(centre, limits)

/** The central 50 % and 80 % of the distribution, held inside its limits. */
export function intervalsOf({ centre, scale, degreesOfFreedom, limits }: Distribution): Intervals {
  const around = (z: number): Range => {
    const half = scale * (degreesOfFreedom === undefined ? z : studentDeviate(z, degreesOfFreedom))
    return clampedRange({ low: centre - half, high: centre + half }, limits)
  }
  return { interval50: around(z50), interval: around(z80) }
}

/**
 * Quantile of Student t for the probability whose standard normal quantile is `x`.
 *
 * An expansion in 1 / degrees of freedom, and not the inverse of the incomplete beta function, which a page that shows
 * a forecast would load for this alone. At 50 and 80 %: within 2e-5 from 8 degrees of freedom, 1e-3 from 3 on.
 * @param degreesOfFreedom at least 3
 * Source: Abramowitz and Stegun 1964, 26.7.5. Checked by: tests/published/abramowitz-stegun-t.test.ts
 */
export function studentDeviate(x: number, degreesOfFreedom: number): number {
  const n = degreesOfFreedom
  const g1 = (x ** 3 + x) / 4
  const g2 = (5 * x ** 5 + 16 * x ** 3 + 3 * x) / 96
  const g3 = (3 * x ** 7 + 19 * x ** 5 + 17 * x ** 3 - 15 * x) / 384
  const g4 = (79 * x ** 9 + 776 * x ** 7 + 1482 * x ** 5 - 1920 * x ** 3 - 945 * x) / 92160
  return x + g1 / n + g2 / n ** 2 + g3 / n ** 3 + g4 / n ** 4
}

/**
 * Degrees of freedom of a sum in which one independent part is Student t and the rest normal: (s^2)^2 / (s_t^4 / nu).
 * @returns undefined when the part is normal too
 * Source: Satterthwaite, Biometrics Bull 2:110-114, 1946; JCGM 100:2008, G.4.1 with infinite degrees for the others
 */
export function pooledDegreesOfFreedom(
  scale: number,
  part: { readonly scale: number; readonly degreesOfFreedom?: number | undefined },
): number | undefined {
  if (part.degreesOfFreedom === undefined || part.scale === 0) return undefined
  return part.degreesOfFreedom * (scale / part.scale) ** 4
}
