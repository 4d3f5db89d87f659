// AAO-HNS Committee on Hearing and Equilibrium, Otolaryngol Head Neck Surg 113:186-187, 1995: gap of the same test date
// at 0.5, 1, 2 and 3 kHz; closure; bone change over 1, 2 and 4 kHz; bins 0-10, 11-20, 21-30, > 30 dB.
// Worked case: means by hand, e.g. gap before (60+60+55+55)/4 - (20+20+30+25)/4 = 57.5 - 23.75 = 33.75.
import { describe, it } from 'vitest'
import type { Difference } from '../../lib/audiometry/differences.ts'
import { boneChange, legacyOverclosure } from '../../lib/audiometry/gains.ts'
import { gapBin, gapClosure } from '../../lib/audiometry/gap-closure.ts'
import { asDbGain } from '../../lib/units/levels.ts'
import { audiogram } from '../fixtures/audiograms.ts'
import { checkValue } from './record-check.ts'

const source = 'AAO-HNS Committee on Hearing and Equilibrium 1995'
const value = (of: Difference | undefined) => (of?.kind === 'exact' ? of.value : undefined)
const exact = { source, tolerance: 1e-9, why: 'exact in quarters of a dB' } as const

const before = {
  air: audiogram({ 500: 60, 1000: 60, 2000: 55, 3000: 55 }),
  bone: audiogram({ 500: 20, 1000: 20, 2000: 30, 3000: 25, 4000: 30 }),
}
const after = {
  air: audiogram({ 500: 30, 1000: 25, 2000: 30, 3000: 35 }),
  bone: audiogram({ 500: 20, 1000: 15, 2000: 20, 3000: 25, 4000: 35 }),
}

describe('AAO-HNS 1995', () => {
  it('takes each gap from its own date', () => {
    const result = gapClosure({ before, after })
    checkValue({ ...exact, what: 'gap before', expected: 33.75, actual: value(result.before.difference) })
    checkValue({ ...exact, what: 'gap after', expected: 10, actual: value(result.after.difference) })
    checkValue({ ...exact, what: 'closure', expected: 23.75, actual: value(result.closure) })
    checkValue({ source, what: 'bin after', expected: '<= 10', actual: result.binAfter, tolerance: 0, why: 'a name' })
    const at = [500, 1000, 2000, 3000] as const
    checkValue({
      ...exact,
      what: 'closure per frequency: (60-20)-(30-20) ...',
      expected: [30, 30, 15, 20],
      actual: at.map((frequency) => value(result.byFrequency.get(frequency)) ?? Number.NaN),
    })
  })

  it('reports bone change over 1, 2 and 4 kHz', () => {
    const [mean] = boneChange({ before: before.bone, after: after.bone }).means
    checkValue({
      source,
      what: '(5 + 10 - 5) / 3',
      expected: 3.3333,
      actual: value(mean?.difference),
      tolerance: 0.00005,
      why: 'printed with four decimals',
    })
  })

  it('keeps the older measure with its older name', () => {
    const [mean] = legacyOverclosure({ airAfter: after.air, boneBefore: before.bone }).means
    checkValue({ ...exact, what: 'air after 30 - bone before 23.75', expected: 6.25, actual: value(mean?.difference) })
  })

  it('puts every fraction into a bin, upper bound included', () => {
    const rows = [
      [-5, '<= 10'],
      [10, '<= 10'],
      [10.625, '> 10 to 20'],
      [20, '> 10 to 20'],
      [20.625, '> 20 to 30'],
      [30, '> 20 to 30'],
      [30.625, '> 30'],
    ] as const
    for (const [gap, expected] of rows) {
      const actual = gapBin({ kind: 'exact', value: asDbGain(gap) })
      checkValue({ source, what: `bin of ${gap} dB`, expected, actual, tolerance: 0, why: 'a name' })
    }
  })
})
