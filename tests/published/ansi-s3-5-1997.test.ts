import { describe, it } from 'vitest'
import { importanceFunction, speechMaterials } from '../../lib/speech/importance.ts'
import { speechIntelligibilityIndex, spreadOfMasking } from '../../lib/speech/intelligibility-index.ts'
import { octave, oneThirdOctave, procedures, vocalEfforts } from '../../lib/speech/procedures.ts'
import { overallLevel } from '../../lib/speech/speech-spectrum.ts'
import { checkValue } from './record-check.ts'

const source = 'ANSI S3.5-1997 (R2017), Annex C, Tables 3 and B.2'
const flat = (level: number): number[] => oneThirdOctave.bandsHz.map(() => level)

describe('ANSI S3.5-1997', () => {
  it('gives the index printed for example C.1 (octave procedure)', () => {
    const { index } = speechIntelligibilityIndex(octave, {
      speechDb: [50, 40, 40, 30, 20, 0],
      noiseDb: [70, 65, 45, 25, 1, -15],
      thresholdDbHl: [0, 0, 0, 0, 0, 0],
    })
    checkValue({
      source,
      what: 'example C.1, index',
      expected: 0.504,
      actual: index,
      tolerance: 0.0005,
      why: 'printed with three decimals',
    })
  })

  it('gives the masking levels printed for example C.2 (one-third-octave procedure)', () => {
    const noiseDb = [40, 30, 20, ...flat(0).slice(3)]
    checkValue({
      source,
      what: 'example C.2, first masking levels Z, dB',
      expected: [40, 34.66, 25.04],
      actual: spreadOfMasking(oneThirdOctave.bandsHz, flat(54), noiseDb).slice(0, 3),
      tolerance: 0.01,
      why: 'printed with two decimals; the standard carries rounded slopes from step to step',
    })
  })

  it('reproduces the overall levels printed under Table 3', () => {
    checkValue({
      source,
      what: 'overall speech level at 1 m by vocal effort, dB SPL',
      expected: [62.35, 68.34, 74.85, 82.3],
      actual: vocalEfforts.map((effort) => overallLevel(oneThirdOctave, oneThirdOctave.speechSpectrumDb[effort])),
      tolerance: 0.07,
      why: 'the printed raised and shout columns differ from their printed totals by 0.06 dB',
    })
  })

  it('weighs the bands with functions that sum to 1', () => {
    for (const procedure of Object.values(procedures)) {
      checkValue({
        source,
        what: `sums of the importance functions, ${procedure.id}`,
        expected: speechMaterials.map(() => 1),
        actual: speechMaterials.map((material) =>
          importanceFunction(procedure.id, material).weights.reduce((sum, weight) => sum + weight, 0),
        ),
        tolerance: 0.00011,
        why: 'four decimals are printed, and SPIN sums to 0.9999',
      })
    }
  })
})
