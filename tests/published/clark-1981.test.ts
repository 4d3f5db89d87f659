// Clark JG, ASHA 23:493-500, 1981: -10 to 15 normal, 16-25 slight, 26-40 mild, 41-55 moderate, 56-70 moderately severe,
// 71-90 severe, 91 and more profound, as reproduced by ASHA (asha.org, Degree of Hearing Loss).
import { it } from 'vitest'
import { gradeName } from '../../lib/audiometry/grades.ts'
import { checkValue } from './record-check.ts'

it('has the degrees of the scale at both printed bounds', () => {
  const rows = [
    ['normal', -10, 15],
    ['slight', 16, 25],
    ['mild', 26, 40],
    ['moderate', 41, 55],
    ['moderately severe', 56, 70],
    ['severe', 71, 90],
    ['profound', 91, 120],
  ] as const
  for (const [degree, from, to] of rows) {
    checkValue({
      source: 'Clark 1981, degrees of hearing loss',
      what: `${from} and ${to} dB HL`,
      expected: [degree, degree],
      actual: [gradeName(from, 'clark'), gradeName(to, 'clark')],
      tolerance: 0,
      why: 'a name',
    })
  }
})
