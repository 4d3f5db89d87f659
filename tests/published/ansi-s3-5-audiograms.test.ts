import { describe, it } from 'vitest'
import { aidedIndex, type ListeningCondition, unaidedIndex, wordsAt65InQuiet } from '../../lib/speech/ear-index.ts'
import { type SpeechMaterial, speechMaterials } from '../../lib/speech/importance.ts'
import { audiogram } from '../fixtures/audiograms.ts'
import { checkValue } from './record-check.ts'

// The steps of ANSI S3.5-1997 typed apart in R 4.2.2, with approx(log10(f), level, log10(bands), rule = 2) for the
// bands; that R code gives 0.9958, 0.5244 and 0.5433 for the worked cases named below.
const source =
  'ANSI S3.5-1997 with Bisgaard, Vlaming and Dahlquist, Trends Amplif 14:113-120, 2010, computed apart in R 4.2.2'
const accuracy = { tolerance: 1e-8, why: 'R printed ten figures' }

const n3 = audiogram({ 250: 35, 500: 35, 750: 35, 1000: 40, 1500: 45, 2000: 50, 3000: 55, 4000: 60, 6000: 65 })
const s2 = audiogram({ 250: 20, 500: 20, 750: 22.5, 1000: 25, 1500: 35, 2000: 55, 3000: 75, 4000: 95, 6000: 95 })
const flat50 = audiogram({ 1000: 50 })
const mixedAir = audiogram({ 250: 60, 500: 60, 1000: 60, 1500: 55, 2000: 55, 3000: 50, 4000: 55, 8000: 60 })
const mixedBone = audiogram({ 250: 15, 500: 15, 1000: 20, 2000: 25, 3000: 30, 4000: 30 })
const aided = audiogram({ 250: 35, 500: 30, 1000: 25, 2000: 30, 3000: 30, 4000: 35 })

const talkerAtOneMetre = (effort: 'normal' | 'raised' | 'loud', material: SpeechMaterial = 'average-speech') =>
  ({ ...wordsAt65InQuiet, material, speech: { kind: 'talker', effort, distanceM: 1 } }) satisfies ListeningCondition

describe('index of an ear', () => {
  it('normal effort, moderate loss N3, every importance function', () => {
    const expected = {
      'average-speech': 0.2834431013,
      'nonsense-syllables': 0.2293788545,
      'cid-w22': 0.3141778939,
      nu6: 0.3047456906,
      drt: 0.335885081,
      'short-passages': 0.3577185617,
      spin: 0.2850467211,
    }
    for (const material of speechMaterials) {
      const actual = unaidedIndex({ air: n3 }, talkerAtOneMetre('normal', material)).index
      checkValue({ source, what: `N3, ${material}`, expected: expected[material], actual, ...accuracy })
    }
  })

  it('steep loss S2, raised effort', () => {
    const actual = unaidedIndex({ air: s2 }, talkerAtOneMetre('raised')).index
    checkValue({ source, what: 'S2, raised', expected: 0.5316356327, actual, ...accuracy })
  })

  it('normal hearing, and a flat loss of 50 dB at loud effort, sensorineural and conductive', () => {
    const normal = audiogram({ 1000: 0 })
    const actual = [
      unaidedIndex({ air: normal }, talkerAtOneMetre('normal')).index,
      unaidedIndex({ air: flat50, bone: flat50 }, talkerAtOneMetre('loud')).index,
      unaidedIndex({ air: flat50, bone: normal }, talkerAtOneMetre('loud')).index,
    ]
    const why = 'given with four decimals'
    const expected = [0.9958, 0.5244, 0.5433]
    checkValue({ source, what: 'normal; flat 50 dB, J = 0 and J = 50', expected, actual, tolerance: 0.00005, why })
  })

  it('N3 at 65 dB SPL, in quiet and in speech-shaped noise', () => {
    const inNoise = (overallDbSpl: number): ListeningCondition => ({
      ...wordsAt65InQuiet,
      noise: { kind: 'speech-shaped', overallDbSpl },
    })
    const conditions = [wordsAt65InQuiet, inNoise(65), inNoise(60)]
    const actual = conditions.map((condition) => unaidedIndex({ air: n3 }, condition).index)
    const expected = [0.3402179972, 0.237793473, 0.291710007]
    checkValue({ source, what: 'N3 at 65 dB SPL: quiet, SNR 0, SNR 5', expected, actual, ...accuracy })
  })

  it('mixed loss at 80 dB SPL, with and without the gap as J, and with both ears', () => {
    const at80: ListeningCondition = {
      ...wordsAt65InQuiet,
      speech: { kind: 'level', overallDbSpl: 80, effort: 'normal' },
    }
    const actual = [
      unaidedIndex({ air: mixedAir, bone: mixedBone }, at80).index,
      unaidedIndex({ air: mixedAir }, at80).index,
      unaidedIndex({ air: mixedAir, bone: mixedBone }, { ...at80, material: 'nu6', listening: 'binaural' }).index,
    ]
    const expected = [0.4125131884, 0.3928043843, 0.4810056061]
    checkValue({ source, what: 'mixed loss at 80 dB SPL', expected, actual, ...accuracy })
  })

  it('aided thresholds with the residual gap as J', () => {
    const actual = aidedIndex({ aided, bone: mixedBone }, wordsAt65InQuiet).index
    checkValue({ source, what: 'aided at 65 dB SPL', expected: 0.7752548335, actual, ...accuracy })
  })

  it('octave procedure', () => {
    const octaves = (condition: ListeningCondition): ListeningCondition => ({ ...condition, procedure: 'octave' })
    const actual = [
      talkerAtOneMetre('normal'),
      talkerAtOneMetre('normal', 'nu6'),
      talkerAtOneMetre('loud', 'cid-w22'),
    ].map((condition) => unaidedIndex({ air: n3 }, octaves(condition)).index)
    const expected = [0.2710003667, 0.2939899667, 0.6723461207]
    checkValue({ source, what: 'N3 by octaves: normal, normal NU-6, loud W-22', expected, actual, ...accuracy })
  })
})
