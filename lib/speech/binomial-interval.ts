import normalQuantile from '@stdlib/stats-base-dists-normal-quantile'
import { requireOpenUnit } from './counts.ts'
import { requireScore, type ScoreMethod, type WordScore } from './word-score.ts'

export interface ProportionInterval {
  /** correct / presented, 0 to 1. */
  readonly proportion: number
  readonly low: number
  readonly high: number
  readonly confidence: number
  readonly method: ScoreMethod
}

export const intervalMethods = {
  exact: {
    id: 'clopper-pearson',
    source: 'Clopper and Pearson, Biometrika 26:404-413, 1934',
    status: 'confirmed',
  },
  wilson: {
    id: 'wilson',
    source: 'Wilson, J Am Stat Assoc 22:209-212, 1927, without continuity correction',
    status: 'confirmed',
  },
} as const satisfies { readonly [name: string]: ScoreMethod }

/**
 * Wilson score limits of a proportion: right on average, shorter than the exact limits. Use it for display.
 * @param score items right of items presented
 * @param confidence between 0 and 1 exclusive
 * @returns limits as proportions, 0 to 1
 * @throws RangeError naming the argument, its value and its domain
 * Source: `intervalMethods.wilson`. Accuracy: 1e-12 absolute. Checked by: tests/published/wilson-1927.test.ts
 */
export function wilsonInterval(score: WordScore, confidence = 0.95): ProportionInterval {
  const { correct, presented } = requireScore('score', score)
  const z = twoSidedZ(requireOpenUnit('confidence', confidence))
  const p = correct / presented
  const shrink = 1 + z ** 2 / presented
  const centre = (p + z ** 2 / (2 * presented)) / shrink
  const half = (z * Math.sqrt((p * (1 - p)) / presented + z ** 2 / (4 * presented ** 2))) / shrink
  return {
    proportion: p,
    low: correct === 0 ? 0 : centre - half,
    high: correct === presented ? 1 : centre + half,
    confidence,
    method: intervalMethods.wilson,
  }
}

/** The normal deviate that cuts off (1 - confidence) / 2 on either side. `confidence` between 0 and 1 exclusive. */
export function twoSidedZ(confidence: number): number {
  return normalQuantile((1 + confidence) / 2, 0, 1)
}
