import { describe, it } from 'vitest'
import { speechIntelligibilityIndex } from '../../lib/speech/intelligibility-index.ts'
import { oneThirdOctave } from '../../lib/speech/procedures.ts'
import { checkValue } from './record-check.ts'

// Values printed in the tests of an open scientific library: J. M. Requena-Plens, jmrplens/phonometry,
// tests/hearing/test_sii.py, commit 4dde79f.
const source = 'Requena-Plens 2026, open implementation of ANSI S3.5-1997: its test values'
const fourDecimals = { tolerance: 0.0001, why: 'given with four decimals; their test allows 1e-4' }
const flat = (level: number): number[] => oneThirdOctave.bandsHz.map(() => level)

describe('a second open implementation of ANSI S3.5-1997', () => {
  it('agrees that noise and threshold are joined by a maximum, not by an energy sum', () => {
    const { index } = speechIntelligibilityIndex(oneThirdOctave, {
      speechDb: oneThirdOctave.speechSpectrumDb.normal,
      noiseDb: flat(30),
      thresholdDbHl: flat(40),
    })
    checkValue({ source, what: 'noise 30 dB, loss 40 dB', expected: 0.2185, actual: index, ...fourDecimals })
  })

  it('agrees on the masking of normal speech by itself', () => {
    const { bands } = speechIntelligibilityIndex(oneThirdOctave, {
      speechDb: oneThirdOctave.speechSpectrumDb.normal,
      thresholdDbHl: flat(0),
    })
    checkValue({
      source,
      what: 'masking level Z of 160, 200, 250 and 315 Hz, dB',
      expected: [8.41, -1.6647, 0.7052, 0.3817],
      actual: bands.slice(0, 4).map((band) => band.maskingDb),
      ...fourDecimals,
    })
    checkValue({
      source,
      what: 'disturbance at 5 kHz, dB',
      expected: -23.6,
      actual: bands[15]?.disturbanceDb,
      tolerance: 0.01,
      why: 'given with one decimal; their test allows 1e-2',
    })
  })
})
