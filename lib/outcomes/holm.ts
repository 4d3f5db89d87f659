import { outsideDomain } from '../audiometry/domain.ts'
import type { SeriesMethod } from './series-method.ts'

export const holmMethod: SeriesMethod = {
  id: 'holm',
  source:
    'Holm, Scand J Statist 6:65-70, 1979: step-down adjustment of probabilities; intervals at 1 - 0.05/k together (Bonferroni)',
  status: 'confirmed',
}

/**
 * Probabilities adjusted for having looked k times: the chance of any false finding stays below the level that they are
 * held against, however the tests depend on each other.
 * @param pValues each 0 to 1
 * @returns adjusted, in the order given, each 0 to 1
 * @throws RangeError naming the argument, its value and its domain
 * Source: Holm 1979. Checked by: tests/published/holm-1979.test.ts
 */
export function holmAdjusted(pValues: readonly number[]): readonly number[] {
  for (const [index, p] of pValues.entries())
    if (!(p >= 0 && p <= 1)) throw outsideDomain(`pValues[${index}]`, p, 'a probability from 0 to 1')
  const k = pValues.length
  const adjusted: number[] = Array.from({ length: k }, () => 1)
  let least = 0
  const order = pValues.map((p, index) => ({ p, index })).toSorted((a, b) => a.p - b.p)
  for (const [rank, { p, index }] of order.entries()) {
    least = Math.max(least, Math.min(1, (k - rank) * p))
    adjusted[index] = least
  }
  return adjusted
}
