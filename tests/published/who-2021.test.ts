// WHO, World Report on Hearing, 2021, Table 1.3: grades of the better-ear average of 0.5, 1, 2 and 4 kHz.
// Bands: normal < 20, mild 20 to < 35, moderate 35 to < 50, moderately severe 50 to < 65, severe 65 to < 80,
// profound 80 to < 95, complete 95 and more; unilateral: better ear < 20, worse ear >= 35.
import { describe, it } from 'vitest'
import { pureToneAverage } from '../../lib/audiometry/averages.ts'
import { gradeEar, gradeName, gradeWho2021 } from '../../lib/audiometry/grades.ts'
import { audiogram } from '../fixtures/audiograms.ts'
import { checkValue } from './record-check.ts'

const source = 'WHO World Report on Hearing 2021, Table 1.3'
const name = { source, tolerance: 0, why: 'a name' } as const

describe('WHO 2021', () => {
  it('cuts the grades where the table prints them, lower bound inclusive', () => {
    const rows = [
      [19.75, 'normal'],
      [20, 'mild'],
      [34.75, 'mild'],
      [35, 'moderate'],
      [49.75, 'moderate'],
      [50, 'moderately severe'],
      [64.75, 'moderately severe'],
      [65, 'severe'],
      [79.75, 'severe'],
      [80, 'profound'],
      [94.75, 'profound'],
      [95, 'complete'],
    ] as const
    for (const [average, expected] of rows) {
      checkValue({ ...name, what: `grade at ${average} dB HL`, expected, actual: gradeName(average, 'who-2021') })
    }
  })

  it('does not round an average before grading it', () => {
    const ear = audiogram({ 500: 30, 1000: 30, 2000: 35, 4000: 40 })
    const { value } = pureToneAverage(ear, 'pta4-who')
    checkValue({
      source,
      what: 'average (135/4)',
      expected: 33.75,
      actual: value,
      tolerance: 1e-9,
      why: 'exact quarter',
    })
    checkValue({ ...name, what: 'its grade', expected: 'mild', actual: gradeEar(ear, 'who-2021').grade })
  })

  it('grades the better ear and names unilateral loss', () => {
    const good = audiogram({ 500: 10, 1000: 10, 2000: 15, 4000: 20 })
    const poor = audiogram({ 500: 30, 1000: 35, 2000: 35, 4000: 40 })
    const result = gradeWho2021({ right: good, left: poor })
    checkValue({ ...name, what: 'grade of ears at 13.75 and 35', expected: 'normal', actual: result.grade })
    checkValue({ ...name, what: 'unilateral at 13.75 and 35', expected: true, actual: result.unilateral })
    const nearly = gradeWho2021({ right: good, left: audiogram({ 500: 30, 1000: 35, 2000: 35, 4000: 35 }) })
    checkValue({ ...name, what: 'unilateral at 13.75 and 33.75', expected: false, actual: nearly.unilateral })
  })
})
