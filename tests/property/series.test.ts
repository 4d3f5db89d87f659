import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { thresholdsFrom, thresholdsText } from '../../lib/interchange/outcome-columns.ts'
import { holmAdjusted } from '../../lib/outcomes/holm.ts'
import { compareSites } from '../../lib/outcomes/site-comparison.ts'
import { audiometricFrequenciesHz, type FrequencyHz } from '../../lib/units/frequencies.ts'
import { audiogram } from '../fixtures/audiograms.ts'
import { resultOf } from '../fixtures/series-ears.ts'

const probability = fc.double({ min: 0, max: 1, noNaN: true })

describe('adjusted probabilities', () => {
  it('are never below their own, never above k times it, and in the same order', () => {
    fc.assert(
      fc.property(fc.array(probability, { minLength: 1, maxLength: 9 }), (pValues) => {
        const adjusted = holmAdjusted(pValues)
        for (const [index, p] of pValues.entries()) {
          expect(adjusted[index]).toBeGreaterThanOrEqual(p)
          expect(adjusted[index]).toBeLessThanOrEqual(Math.min(1, pValues.length * p))
          for (const [other, q] of pValues.entries())
            if (p < q) expect(adjusted[index]).toBeLessThanOrEqual(adjusted[other] ?? 0)
        }
      }),
    )
  })
})

describe('two sites', () => {
  const gains = fc.array(fc.integer({ min: -40, max: 40 }), { minLength: 5, maxLength: 12 })
  it('give the opposite difference when they change places', () => {
    fc.assert(
      fc.property(gains, gains, (a, b) => {
        const ears = [
          ...a.map((gain) => resultOf('incus-body', new Map<FrequencyHz, number>([[1000, gain]]))),
          ...b.map((gain) => resultOf('skull', new Map<FrequencyHz, number>([[1000, gain]]))),
        ]
        const at = (first: 'incus-body' | 'skull', second: 'incus-body' | 'skull') =>
          compareSites(ears, first, second, 'effective-gain').byFrequency.find(({ frequency }) => frequency === 1000)
            ?.difference
        const [one, other] = [at('incus-body', 'skull'), at('skull', 'incus-body')]
        expect(one?.value).toBeCloseTo(-(other?.value ?? Number.NaN), 9)
        expect(one?.low).toBeCloseTo(-(other?.high ?? Number.NaN), 6)
        expect(one?.pAdjusted).toBeCloseTo(other?.pAdjusted ?? Number.NaN, 9)
      }),
      { numRuns: 40 },
    )
  })
})

describe('columns of thresholds', () => {
  const point = fc.oneof(
    fc.integer({ min: -20, max: 130 }),
    fc.integer({ min: 60, max: 130 }).map((none) => ({ none })),
  )
  it('are read back as they were written', () => {
    fc.assert(
      fc.property(fc.dictionary(fc.constantFrom(...audiometricFrequenciesHz.map(String)), point), (points) => {
        const given = audiogram(points)
        expect(thresholdsFrom(thresholdsText(given))).toEqual(given)
      }),
    )
  })
})
