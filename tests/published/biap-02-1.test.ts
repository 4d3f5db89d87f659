// BIAP Recommendation 02/1 bis: sum of 0.5, 1, 2 and 4 kHz divided by 4, rounded up to the next whole dB; a frequency
// not perceived counts as 120 dB; binaural average of asymmetric loss (7 x better + 3 x worse) / 10.
import { describe, it } from 'vitest'
import { pureToneAverage } from '../../lib/audiometry/averages.ts'
import { biapBinaural, gradeEar, gradeName } from '../../lib/audiometry/grades.ts'
import { audiogram } from '../fixtures/audiograms.ts'
import { checkValue } from './record-check.ts'

const source = 'BIAP Recommendation 02/1 bis'
const exact = { source, tolerance: 0, why: 'whole dB and names by the text' } as const

describe('BIAP 02/1 bis', () => {
  it('counts a frequency that is not perceived as 120 dB', () => {
    const ear = audiogram({ 500: 55, 1000: 70, 2000: 95, 4000: { none: 110 } })
    checkValue({ ...exact, what: '(55+70+95+120)/4', expected: 85, actual: pureToneAverage(ear, 'pta4-biap').value })
    checkValue({ ...exact, what: 'its class', expected: 'IV severe, 2nd degree', actual: gradeEar(ear, 'biap').grade })
  })

  it('rounds up, never to the nearest', () => {
    const ear = audiogram({ 500: 20, 1000: 20, 2000: 20, 4000: 21 })
    checkValue({ ...exact, what: '81/4 = 20.25', expected: 21, actual: pureToneAverage(ear, 'pta4-biap').value })
    checkValue({ ...exact, what: 'class at 20.25', expected: 'II mild', actual: gradeEar(ear, 'biap').grade })
  })

  it('has the classes of the text', () => {
    const rows = [
      [20, 'I normal or subnormal'],
      [21, 'II mild'],
      [40, 'II mild'],
      [41, 'III moderate, 1st degree'],
      [55, 'III moderate, 1st degree'],
      [56, 'III moderate, 2nd degree'],
      [70, 'III moderate, 2nd degree'],
      [71, 'IV severe, 1st degree'],
      [81, 'IV severe, 2nd degree'],
      [91, 'V very severe, 1st degree'],
      [101, 'V very severe, 2nd degree'],
      [111, 'V very severe, 3rd degree'],
      [119, 'V very severe, 3rd degree'],
      [120, 'VI total (cophosis)'],
    ] as const
    for (const [level, expected] of rows) {
      checkValue({ ...exact, what: `class at ${level} dB`, expected, actual: gradeName(level, 'biap') })
    }
  })

  it('weighs the better ear with 7 and the worse with 3', () => {
    const flat = (level: number) => audiogram({ 500: level, 1000: level, 2000: level, 4000: level })
    const result = biapBinaural({ right: flat(80), left: flat(30) })
    checkValue({ ...exact, what: '(7 x 30 + 3 x 80) / 10', expected: 45, actual: result.value })
  })
})
