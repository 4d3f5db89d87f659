// Bisgaard N, Vlaming MSMG, Dahlquist M, Trends Amplif 14:113-120, 2010 (IEC 60118-15): standard audiograms in dB HL at
// 250, 375, 500, 750, 1000, 1500, 2000, 3000, 4000, 6000 Hz; 375 Hz is not an audiometric frequency here. Averages by hand:
// 0.5/1/2/4 kHz for the WHO grade, 0.5/1/2/3 kHz beside it; N3: (35 + 40 + 50 + 60) / 4 = 46.25.
import { it } from 'vitest'
import { pureToneAverage } from '../../lib/audiometry/averages.ts'
import { gradeEar } from '../../lib/audiometry/grades.ts'
import { audiogram } from '../fixtures/audiograms.ts'
import { checkValue } from './record-check.ts'

const source = 'Bisgaard, Vlaming and Dahlquist 2010, standard audiograms'

const rows = [
  ['N1', [10, 10, 10, 10, 10, 15, 20, 30, 40], 16.25, 13.75, 'normal'],
  ['N2', [20, 20, 22.5, 25, 30, 35, 40, 45, 50], 31.25, 30, 'mild'],
  ['N3', [35, 35, 35, 40, 45, 50, 55, 60, 65], 46.25, 45, 'moderate'],
  ['N4', [55, 55, 55, 55, 60, 65, 70, 75, 80], 62.5, 61.25, 'moderately severe'],
  ['N5', [65, 70, 72.5, 75, 80, 80, 80, 80, 80], 76.25, 76.25, 'severe'],
  ['N6', [75, 80, 82.5, 85, 90, 90, 95, 100, 100], 88.75, 87.5, 'profound'],
  ['N7', [90, 95, 100, 105, 105, 105, 105, 105, 105], 102.5, 102.5, 'complete'],
  ['S1', [10, 10, 10, 10, 10, 15, 30, 55, 70], 22.5, 16.25, 'mild'],
  ['S2', [20, 20, 22.5, 25, 35, 55, 75, 95, 95], 48.75, 43.75, 'moderate'],
  ['S3', [30, 35, 47.5, 60, 70, 75, 80, 80, 85], 62.5, 62.5, 'moderately severe'],
] as const
const frequencies = [250, 500, 750, 1000, 1500, 2000, 3000, 4000, 6000]

it('averages and WHO grades of the ten standard audiograms', () => {
  for (const [name, levels, who, aao, grade] of rows) {
    const ear = audiogram(Object.fromEntries(frequencies.map((frequency, index) => [frequency, levels[index] ?? 0])))
    const exact = { source, tolerance: 1e-9, why: 'exact in quarters of a dB' } as const
    checkValue({
      ...exact,
      what: `${name}, 0.5/1/2/4 kHz`,
      expected: who,
      actual: pureToneAverage(ear, 'pta4-who').value,
    })
    checkValue({
      ...exact,
      what: `${name}, 0.5/1/2/3 kHz`,
      expected: aao,
      actual: pureToneAverage(ear, 'pta4-aao').value,
    })
    checkValue({
      source,
      what: `${name}, grade`,
      expected: grade,
      actual: gradeEar(ear, 'who-2021').grade,
      tolerance: 0,
      why: 'a name',
    })
  }
})
