import { describe, expect, it } from 'vitest'
import { octave, oneThirdOctave, procedures } from '../../../lib/speech/procedures.ts'
import { overallLevel, speechAtDistance, speechAtLevel } from '../../../lib/speech/speech-spectrum.ts'

describe('speech spectrum', () => {
  it.each(['normal', 'raised', 'loud', 'shout'] as const)(
    'with the shape of %s effort sums to the level asked for',
    (effort) => {
      for (const level of [40, 65, 80]) {
        expect(overallLevel(oneThirdOctave, speechAtLevel(oneThirdOctave, level, effort))).toBeCloseTo(level, 10)
      }
    },
  )

  it('describes the same sound in octaves as in thirds', () => {
    const thirds = speechAtLevel(oneThirdOctave, 65, 'normal')
    const octaves = speechAtLevel(octave, 65, 'normal')
    const thirdAt1000 = thirds[oneThirdOctave.bandsHz.indexOf(1000)]
    expect(octaves[octave.bandsHz.indexOf(1000)]).toBeCloseTo(thirdAt1000 ?? Number.NaN, 10)
  })

  it('is the standard one at 1 m and 6 dB lower at twice the distance', () => {
    expect(speechAtDistance(oneThirdOctave, 'loud', 1)).toEqual(oneThirdOctave.speechSpectrumDb.loud)
    const [atTwo = 0] = speechAtDistance(oneThirdOctave, 'loud', 2)
    const [atOne = 0] = oneThirdOctave.speechSpectrumDb.loud
    expect(atOne - atTwo).toBeCloseTo(6.0206, 4)
  })

  it('has one constant of each kind a band', () => {
    for (const { bandsHz, bandwidthDb, internalNoiseDb, speechSpectrumDb } of Object.values(procedures)) {
      const lists = [bandwidthDb, internalNoiseDb, ...Object.values(speechSpectrumDb)]
      expect(lists.map((list) => list.length)).toEqual(lists.map(() => bandsHz.length))
    }
  })

  it.each([
    {
      what: 'level',
      call: () => speechAtLevel(oneThirdOctave, 200, 'normal'),
      message: /overallDbSpl is 200.*0 to 120/,
    },
    { what: 'level', call: () => speechAtLevel(oneThirdOctave, Number.NaN, 'normal'), message: /overallDbSpl is NaN/ },
    { what: 'distance', call: () => speechAtDistance(octave, 'normal', 0), message: /distanceM is 0.*0.1 to 100/ },
    { what: 'length', call: () => overallLevel(octave, [50, 50]), message: /length of spectrumDb is 2.*must be 6/ },
    { what: 'band', call: () => overallLevel(octave, [50, 50, 50, 300, 50, 50]), message: /spectrumDb\[3\] is 300/ },
  ])('refuses a $what out of domain: $message', ({ call, message }) => {
    expect(call).toThrow(RangeError)
    expect(call).toThrow(message)
  })
})
