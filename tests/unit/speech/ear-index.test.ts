import { describe, expect, it } from 'vitest'
import {
  aidedIndex,
  type ListeningCondition,
  thresholdTreatments,
  unaidedIndex,
  wordsAt65InQuiet,
} from '../../../lib/speech/ear-index.ts'
import { speechIntelligibilityIndex } from '../../../lib/speech/intelligibility-index.ts'
import { octave, oneThirdOctave } from '../../../lib/speech/procedures.ts'
import { speechAtLevel } from '../../../lib/speech/speech-spectrum.ts'
import { audiogram } from '../../fixtures/audiograms.ts'

const flat = (level: number) => audiogram({ 250: level, 8000: level })
const flatBands = (value: number) => oneThirdOctave.bandsHz.map(() => value)

describe('unaided index', () => {
  it('says how it was computed', () => {
    const result = unaidedIndex({ air: flat(40), bone: flat(10) }, { ...wordsAt65InQuiet, material: 'nu6' })
    expect(result.procedure.id).toBe('one-third-octave')
    expect(result.importance).toMatchObject({
      material: 'nu6',
      source: 'ANSI S3.5-1997, Table B.2',
      status: 'confirmed',
    })
    expect(result.treatment).toBe(thresholdTreatments['unaided-air-conduction'])
    expect(result.conductivePart).toBe('from-bone-conduction')
  })

  it('counts the loss as sensorineural without a frequency tested by both routes', () => {
    const apart = unaidedIndex({ air: audiogram({ 500: 40 }), bone: audiogram({ 1000: 10 }) }, wordsAt65InQuiet)
    expect(apart.conductivePart).toBe('not-known')
    expect(apart.index).toBe(unaidedIndex({ air: audiogram({ 500: 40 }) }, wordsAt65InQuiet).index)
  })

  it('does not take bone conduction worse than air as a negative gap', () => {
    const loud: ListeningCondition = {
      ...wordsAt65InQuiet,
      speech: { kind: 'level', overallDbSpl: 85, effort: 'normal' },
    }
    const better = unaidedIndex({ air: flat(20), bone: flat(35) }, loud).index
    expect(better).toBe(unaidedIndex({ air: flat(20), bone: flat(20) }, loud).index)
  })

  it('is an upper bound when a frequency gave no response, and names the bands', () => {
    const { bound, beyondLimitHz } = unaidedIndex(
      { air: audiogram({ 250: 30, 4000: 70, 8000: { none: 90 } }) },
      { ...wordsAt65InQuiet, procedure: 'octave' },
    )
    expect(bound).toBe('upper-bound')
    expect(beyondLimitHz).toEqual([8000])
  })

  it('names the bands where a threshold is held', () => {
    const result = unaidedIndex({ air: audiogram({ 500: 30, 4000: 70 }) }, { ...wordsAt65InQuiet, procedure: 'octave' })
    expect(result.heldHz).toEqual([250, 8000])
  })

  it('takes spectra as given', () => {
    const speechDb = speechAtLevel(oneThirdOctave, 65, 'normal')
    const condition: ListeningCondition = {
      ...wordsAt65InQuiet,
      speech: { kind: 'spectrum', spectrumDb: speechDb },
      noise: { kind: 'spectrum', spectrumDb: flatBands(20) },
    }
    const direct = speechIntelligibilityIndex(oneThirdOctave, {
      speechDb,
      noiseDb: flatBands(20),
      thresholdDbHl: flatBands(30),
    })
    expect(unaidedIndex({ air: flat(30) }, condition).index).toBe(direct.index)
  })
})

describe('aided index', () => {
  const bone = flat(20)
  const unaided = flat(60)
  const aided = flat(30)

  it('equals the index of speech amplified by the functional gain, in quiet, as the standard has it', () => {
    const gainDb = 30
    const amplified = speechAtLevel(oneThirdOctave, 65, 'normal').map((level) => level + gainDb)
    const byGain = speechIntelligibilityIndex(oneThirdOctave, {
      speechDb: amplified,
      noiseDb: flatBands(-50),
      thresholdDbHl: flatBands(60),
      conductiveDb: flatBands(60 - 20),
    })
    expect(aidedIndex({ aided, bone }, wordsAt65InQuiet).index).toBeCloseTo(byGain.index, 10)
  })

  it('is better than the unaided index of the same ear', () => {
    const without = unaidedIndex({ air: unaided, bone }, wordsAt65InQuiet).index
    expect(aidedIndex({ aided, bone }, wordsAt65InQuiet).index).toBeGreaterThan(without)
  })

  it('loses by level distortion where a device amplifies beyond bone conduction', () => {
    const loud: ListeningCondition = {
      ...wordsAt65InQuiet,
      speech: { kind: 'level', overallDbSpl: 80, effort: 'normal' },
    }
    const amplifying = aidedIndex({ aided, bone: flat(55) }, loud).index
    expect(amplifying).toBeLessThan(aidedIndex({ aided, bone: flat(30) }, loud).index)
  })

  it('says what an aided threshold cannot see', () => {
    expect(aidedIndex({ aided }, wordsAt65InQuiet).treatment.reservation).toMatch(/compression/)
  })
})

describe('index out of domain', () => {
  const speechDb = octave.speechSpectrumDb.normal
  const thresholdDbHl = octave.bandsHz.map(() => 0)

  it.each([
    { call: () => unaidedIndex({ air: new Map() }, wordsAt65InQuiet), message: /number of tested frequencies/ },
    {
      call: () => unaidedIndex({ air: flat(20), bone: flat(200) }, wordsAt65InQuiet),
      message: /bone level at 250 Hz is 200/,
    },
    {
      call: () =>
        unaidedIndex({ air: flat(20) }, { ...wordsAt65InQuiet, noise: { kind: 'speech-shaped', overallDbSpl: 300 } }),
      message: /noise.overallDbSpl is 300/,
    },
    {
      call: () =>
        unaidedIndex({ air: flat(20) }, { ...wordsAt65InQuiet, speech: { kind: 'spectrum', spectrumDb: [1] } }),
      message: /length of speech.spectrumDb is 1.*must be 18/,
    },
    {
      call: () => speechIntelligibilityIndex(octave, { speechDb, thresholdDbHl: [0, 0, 0, 0, 0, 200] }),
      message: /thresholdDbHl\[5\] is 200.*-30 to 140 dB HL/,
    },
    {
      call: () =>
        speechIntelligibilityIndex(octave, { speechDb, thresholdDbHl, conductiveDb: [0, 0, 0, 0, 0, Number.NaN] }),
      message: /conductiveDb\[5\] is NaN/,
    },
    {
      call: () => speechIntelligibilityIndex(octave, { speechDb, thresholdDbHl, noiseDb: [] }),
      message: /length of noiseDb is 0/,
    },
  ])('is refused: $message', ({ call, message }) => {
    expect(call).toThrow(RangeError)
    expect(call).toThrow(message)
  })
})
