import { describe, it } from 'vitest'
import { expectedScore } from '../../lib/speech/score-transfer.ts'
import { checkValue } from './record-check.ts'

const source =
  'Studebaker and Sherbecoe 1991 (W-22); Studebaker, Sherbecoe and Gilmore 1993 (NU-6); constants from memory, unconfirmed'

describe('transfer from index to word score', () => {
  // R 4.2.2: (1 - 10^(-sii * p / q))^n with q = 0.404, n = 3.334 (NU-6) or q = 0.283, n = 4.057 (W-22)
  it.each([
    { material: 'nu6', index: 0.5, proficiency: 1, expected: 0.8197875814634 },
    { material: 'cid-w22', index: 0.5, proficiency: 1, expected: 0.9323841456835 },
    { material: 'nu6', index: 0.3, proficiency: 1, expected: 0.5141321398411 },
    { material: 'nu6', index: 1, proficiency: 1, expected: 0.9888821560859 },
    { material: 'nu6', index: 0.5, proficiency: 0.9, expected: 0.7657382871063 },
  ] as const)('$material at an index of $index', ({ material, index, proficiency, expected }) => {
    const what = `score expected of ${material} at ${index}, proficiency ${proficiency}`
    const actual = expectedScore(material, index, proficiency)
    checkValue({ source, what, expected, actual, tolerance: 1e-12, why: 'R gives 13 figures' })
  })
})
