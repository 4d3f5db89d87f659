import { describe, it } from 'vitest'
import { speechIntelligibilityIndex } from '../../lib/speech/intelligibility-index.ts'
import { oneThirdOctave } from '../../lib/speech/procedures.ts'
import { speechAtDistance } from '../../lib/speech/speech-spectrum.ts'
import { checkValue } from './record-check.ts'

// Values printed in the tests of an open scientific library: H. Muesch (2003-2005), translated by M. Slaney,
// google/speech_intelligibility_index, speech_intelligibility_index/sii_test.py, commit 0cfac2d.
const source = 'Muesch 2005 and Slaney 2022, open implementation of ANSI S3.5-1997: its test values'
const fourDecimals = { tolerance: 0.0001, why: 'given with four decimals; their test allows 1e-4' }
const flat = (level: number): number[] => oneThirdOctave.bandsHz.map(() => level)

/** Binaural listening lowers the equivalent threshold by 1.7 dB. */
const binauralNormalHearing = flat(-1.7)

// expected_ss and expected_sn of test_example_1: quiet, free field, 0.5 m to 20 m in steps of 0.5 m.
const distancesM = Array.from({ length: 40 }, (_, step) => (step + 1) / 2)
const shoutedByDistance = [
  0.8809, 0.9177, 0.9386, 0.9522, 0.9623, 0.9705, 0.9768, 0.9819, 0.9865, 0.9899, 0.9928, 0.9949, 0.9967, 0.9977,
  0.9979, 0.9975, 0.997, 0.9966, 0.9962, 0.9958, 0.9954, 0.995, 0.9947, 0.9943, 0.994, 0.9937, 0.9934, 0.9931, 0.9929,
  0.9926, 0.9924, 0.9921, 0.9919, 0.9916, 0.9914, 0.9912, 0.9909, 0.9906, 0.9903, 0.99,
]
const normalByDistance = [
  1.0, 0.9969, 0.9947, 0.992, 0.9885, 0.9856, 0.9831, 0.981, 0.9791, 0.9775, 0.976, 0.9746, 0.9722, 0.9698, 0.9677,
  0.9657, 0.9638, 0.9619, 0.96, 0.9583, 0.9567, 0.9551, 0.9532, 0.9508, 0.9477, 0.9434, 0.938, 0.9322, 0.9266, 0.9203,
  0.9143, 0.9084, 0.9024, 0.8962, 0.8901, 0.8844, 0.8788, 0.8733, 0.868, 0.8627,
]

// expected_speech and expected_protection of test_example_2: shout at 1 m in white noise of 0 to 80 dB spectrum level.
const whiteNoiseDb = Array.from({ length: 41 }, (_, step) => step * 2)
const shoutedInNoise = [
  0.9177, 0.9177, 0.9177, 0.9173, 0.9161, 0.9126, 0.9092, 0.9035, 0.8967, 0.8894, 0.8795, 0.8672, 0.8508, 0.8306, 0.807,
  0.779, 0.7482, 0.7073, 0.6565, 0.596, 0.5372, 0.4783, 0.4225, 0.3669, 0.3117, 0.2604, 0.2105, 0.1657, 0.125, 0.0865,
  0.0534, 0.0245, 0.0062, 0, 0, 0, 0, 0, 0, 0, 0,
]
const attenuationDb = [
  36.1, 37.0, 38.0, 37.7, 37.4, 37.2, 37.0, 36.9, 36.7, 36.4, 36.1, 35.8, 38.0, 40.3, 40.7, 41.0, 41.5, 42.5,
]
const shoutedInNoiseAttenuated = [
  0.94, 0.94, 0.94, 0.94, 0.94, 0.94, 0.94, 0.94, 0.94, 0.9384, 0.9327, 0.924, 0.9116, 0.8942, 0.8715, 0.8457, 0.8164,
  0.778, 0.7277, 0.6624, 0.5988, 0.5352, 0.4738, 0.4138, 0.3542, 0.2973, 0.2432, 0.1943, 0.1498, 0.1082, 0.0709, 0.0367,
  0.0126, 0, 0, 0, 0, 0, 0, 0, 0,
]

describe('an open implementation of ANSI S3.5-1997', () => {
  it('agrees on the irregular spectra of its first test', () => {
    const { index } = speechIntelligibilityIndex(oneThirdOctave, {
      speechDb: [90, 5, 40, 40, 40, 40, 40, 40, 40, 40, 40, 40, 40, 40, -10, -10, -10, -10],
      noiseDb: [10, -10, -10, 75, -10, -10, -10, -10, -10, -10, -10, -10, -10, -10, 10, 10, 10, 10],
      thresholdDbHl: [90, ...flat(0).slice(1)],
    })
    const why = 'given with three decimals; their test allows 1e-3'
    checkValue({ source, what: 'test_to', expected: 0.445, actual: index, tolerance: 0.001, why })
  })

  it('agrees on speech heard with both ears at 0.5 to 20 m', () => {
    for (const [effort, expected] of [['shout', shoutedByDistance] as const, ['normal', normalByDistance] as const]) {
      const actual = distancesM.map((distance) => {
        const speechDb = speechAtDistance(oneThirdOctave, effort, distance)
        return speechIntelligibilityIndex(oneThirdOctave, { speechDb, thresholdDbHl: binauralNormalHearing }).index
      })
      checkValue({ source, what: `quiet, by distance, ${effort}`, expected, actual, ...fourDecimals })
    }
  })

  it('agrees on speech in white noise', () => {
    const actual = whiteNoiseDb.map((level) => {
      const speechDb = oneThirdOctave.speechSpectrumDb.shout
      return speechIntelligibilityIndex(oneThirdOctave, { speechDb, noiseDb: flat(level), thresholdDbHl: flat(0) })
        .index
    })
    checkValue({ source, what: 'shout in white noise', expected: shoutedInNoise, actual, ...fourDecimals })
  })

  it('agrees when speech and noise are attenuated alike before they reach the ear', () => {
    const attenuated = (levels: readonly number[]) => levels.map((level, band) => level - (attenuationDb[band] ?? 0))
    const actual = whiteNoiseDb.map((level) => {
      const speechDb = attenuated(oneThirdOctave.speechSpectrumDb.shout)
      const noiseDb = attenuated(flat(level))
      return speechIntelligibilityIndex(oneThirdOctave, { speechDb, noiseDb, thresholdDbHl: flat(0) }).index
    })
    checkValue({ source, what: 'the same, attenuated', expected: shoutedInNoiseAttenuated, actual, ...fourDecimals })
  })
})
