import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { Audiogram, Threshold } from '../../lib/audiometry/thresholds.ts'
import { audibilityMap } from '../../lib/speech/audibility-map.ts'
import { aidedIndex, type EarIndex, type ListeningCondition, unaidedIndex } from '../../lib/speech/ear-index.ts'
import { speechMaterials } from '../../lib/speech/importance.ts'
import { vocalEfforts } from '../../lib/speech/procedures.ts'
import { expectedScore, indexForScore } from '../../lib/speech/score-transfer.ts'
import { audiometricFrequenciesHz, type FrequencyHz } from '../../lib/units/frequencies.ts'
import { asDbHl } from '../../lib/units/levels.ts'

const level = fc.integer({ min: -4, max: 26 }).map((steps) => asDbHl(steps * 5))

const tested: fc.Arbitrary<Threshold> = fc.oneof(
  { weight: 6, arbitrary: level.map((value): Threshold => ({ kind: 'heard', level: value, masked: false })) },
  level.map((limit): Threshold => ({ kind: 'no-response', limit, masked: true })),
)

const audiogramOf = (threshold: fc.Arbitrary<Threshold>): fc.Arbitrary<Audiogram> =>
  fc
    .uniqueArray(fc.tuple(fc.constantFrom(...audiometricFrequenciesHz), threshold), {
      minLength: 1,
      maxLength: 12,
      selector: ([frequency]) => frequency,
    })
    .map((points) => new Map(points))

const audiogram = audiogramOf(tested)

const overallDbSpl = fc.integer({ min: 30, max: 100 })
const condition: fc.Arbitrary<ListeningCondition> = fc.record({
  procedure: fc.constantFrom('one-third-octave', 'octave'),
  material: fc.constantFrom(...speechMaterials),
  speech: fc.oneof(
    fc.record({ kind: fc.constant('level'), overallDbSpl, effort: fc.constantFrom(...vocalEfforts) }),
    fc.record({
      kind: fc.constant('talker'),
      effort: fc.constantFrom(...vocalEfforts),
      distanceM: fc.double({ min: 0.5, max: 20, noNaN: true }),
    }),
  ),
  noise: fc.oneof(
    fc.constant({ kind: 'quiet' } as const),
    fc.record({ kind: fc.constant('speech-shaped'), overallDbSpl }),
  ),
  listening: fc.constantFrom('monaural', 'binaural'),
})

const worseBy = (source: Audiogram, steps: readonly number[]): Audiogram =>
  new Map([...source].map(([frequency, threshold], index) => [frequency, shifted(threshold, (steps[index] ?? 0) * 5)]))

function shifted(threshold: Threshold, byDb: number): Threshold {
  const worse = (value: number) => asDbHl(Math.min(130, value + byDb))
  switch (threshold.kind) {
    case 'heard':
      return { ...threshold, level: worse(threshold.level) }
    case 'no-response':
      return { ...threshold, limit: worse(threshold.limit) }
    default:
      return threshold
  }
}

const steps = fc.array(fc.integer({ min: 0, max: 6 }), { minLength: 12, maxLength: 12 })
const rounding = 1e-12

function expectSound(result: EarIndex): void {
  expect(result.index).toBeGreaterThanOrEqual(0)
  expect(result.index).toBeLessThanOrEqual(1)
  for (const band of result.bands) {
    for (const value of Object.values(band)) expect(value).toSatisfy(Number.isFinite)
    expect(band.audibility).toBeGreaterThanOrEqual(0)
    expect(band.audibility).toBeLessThanOrEqual(1)
  }
}

describe('index of an ear', () => {
  it('is a number from 0 to 1 for every legal ear and condition, unaided and aided', () => {
    fc.assert(
      fc.property(audiogram, audiogram, condition, (air, bone, heardAs) => {
        expectSound(unaidedIndex({ air, bone }, heardAs))
        expectSound(aidedIndex({ aided: air, bone }, heardAs))
      }),
    )
  })

  it('never rises when thresholds get worse', () => {
    fc.assert(
      fc.property(audiogram, condition, steps, (air, heardAs, shift) => {
        const worse = unaidedIndex({ air: worseBy(air, shift) }, heardAs).index
        expect(worse).toBeLessThanOrEqual(unaidedIndex({ air }, heardAs).index + rounding)
      }),
    )
  })

  it('never rises when bone conduction gets worse under the same air conduction', () => {
    fc.assert(
      fc.property(audiogram, audiogram, condition, steps, (air, bone, heardAs, shift) => {
        const worse = unaidedIndex({ air, bone: worseBy(bone, shift) }, heardAs).index
        expect(worse).toBeLessThanOrEqual(unaidedIndex({ air, bone }, heardAs).index + rounding)
      }),
    )
  })

  it('never rises with more noise, and never falls with a second ear', () => {
    fc.assert(
      fc.property(audiogram, condition, overallDbSpl, (air, heardAs, noiseLevel) => {
        const inNoise = (noise: number): ListeningCondition => ({
          ...heardAs,
          noise: { kind: 'speech-shaped', overallDbSpl: noise },
        })
        const index = (heard: ListeningCondition) => unaidedIndex({ air }, heard).index
        expect(index(inNoise(noiseLevel + 5))).toBeLessThanOrEqual(index(inNoise(noiseLevel)) + rounding)
        const monaural = index({ ...heardAs, listening: 'monaural' })
        expect(index({ ...heardAs, listening: 'binaural' })).toBeGreaterThanOrEqual(monaural - rounding)
      }),
    )
  })

  it('does not depend on the order in which frequencies were entered', () => {
    fc.assert(
      fc.property(audiogram, condition, (air, heardAs) => {
        const reversed = new Map([...air].toReversed())
        expect(unaidedIndex({ air: reversed }, heardAs)).toEqual(unaidedIndex({ air }, heardAs))
      }),
    )
  })

  it('is an upper bound exactly when a threshold that is leant on was not heard', () => {
    fc.assert(
      fc.property(audiogram, condition, (air, heardAs) => {
        const { bound, beyondLimitHz } = unaidedIndex({ air }, heardAs)
        const anyBeyond = [...air.values()].some((threshold) => threshold.kind === 'no-response')
        expect(bound === 'upper-bound').toBe(beyondLimitHz.length > 0)
        if (!anyBeyond) expect(bound).toBe('exact')
      }),
    )
  })

  it('loses in the audibility map what the index lacks', () => {
    fc.assert(
      fc.property(audiogram, condition, (air, heardAs) => {
        const result = unaidedIndex({ air }, heardAs)
        const map = audibilityMap(result)
        const carried = map.reduce((sum, band) => sum + band.importance, 0)
        const lost = map.reduce((sum, band) => sum + band.lost, 0)
        expect(carried - lost).toBeCloseTo(result.index, 10)
        for (const band of map) {
          const above = (band.peaksDbHl - band.limitDbHl) / 30
          expect(band.audibleProportion).toBeCloseTo(Math.min(1, Math.max(0, above)), 9)
        }
      }),
    )
  })

  it('moves with one threshold only where that threshold is leant on', () => {
    const frequency: FrequencyHz = 4000
    fc.assert(
      fc.property(level, condition, (changed, heardAs) => {
        const at = (value: Threshold): Audiogram =>
          new Map<FrequencyHz, Threshold>([
            [1000, { kind: 'heard', level: asDbHl(20), masked: false }],
            [2000, { kind: 'heard', level: asDbHl(30), masked: false }],
            [frequency, value],
          ])
        const bandsOf = (value: number) =>
          unaidedIndex({ air: at({ kind: 'heard', level: asDbHl(value), masked: false }) }, heardAs).bands
        const low = bandsOf(10).filter((band) => band.frequencyHz <= 2000)
        expect(bandsOf(changed).filter((band) => band.frequencyHz <= 2000)).toEqual(low)
      }),
    )
  })
})

describe('transfer to a word score', () => {
  const material = fc.constantFrom('nu6', 'cid-w22')
  const index = fc.double({ min: 0, max: 1, noNaN: true })

  it('rises with the index and stays a proportion', () => {
    fc.assert(
      fc.property(material, index, index, (test, a, b) => {
        const [lower, higher] = [expectedScore(test, Math.min(a, b)), expectedScore(test, Math.max(a, b))]
        expect(lower).toBeLessThanOrEqual(higher)
        expect(lower).toBeGreaterThanOrEqual(0)
        expect(higher).toBeLessThanOrEqual(1)
      }),
    )
  })

  it('is inverted', () => {
    fc.assert(
      fc.property(material, fc.double({ min: 0.01, max: 1, noNaN: true }), (test, value) => {
        expect(indexForScore(test, expectedScore(test, value))).toBeCloseTo(value, 6)
      }),
    )
  })
})
