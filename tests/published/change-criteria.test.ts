// Three-two-one: J Speech Lang Hear Res 60:1076-1087, 2017, Table 1. ASHA 1994, ototoxicity. AAO-HNS 1995.
import { describe, it } from 'vitest'
import { type ChangeCriterionId, changeBy } from '../../lib/audiometry/change-criteria.ts'
import { audiogram, type Point } from '../fixtures/audiograms.ts'
import { checkValue } from './record-check.ts'

const frequencies = [250, 500, 1000, 2000, 3000, 4000, 6000, 8000]
const row = (...points: Point[]) =>
  audiogram(Object.fromEntries(frequencies.map((f, index) => [f, points[index] ?? 20])))
const base = row()
const none = { none: 100 } as const

function check(source: string, id: ChangeCriterionId, what: string, after: readonly Point[], expected: boolean): void {
  const actual = changeBy({ audiograms: { before: base, after: row(...after) } }, id).worse
  checkValue({ source, what, expected, actual, tolerance: 0, why: 'a decision' })
}

describe('change criteria', () => {
  it('three-two-one', () => {
    const source = 'JSLHR 60:1076-1087, 2017, three-two-one rule'
    check(source, 'three-two-one', '10 dB at two', [30, 20, 30], false)
    check(source, 'three-two-one', '10 dB at three', [30, 20, 30, 20, 30], true)
    check(source, 'three-two-one', '15 dB at one', [35], false)
    check(source, 'three-two-one', '15 dB at two', [35, 20, 20, 35], true)
    check(source, 'three-two-one', '20 dB at one', [20, 20, 40], true)
  })

  it('ASHA 1994', () => {
    const source = 'ASHA 1994, ototoxicity criteria'
    check(source, 'asha-1994', '10 dB at two apart', [30, 20, 30], false)
    check(source, 'asha-1994', '10 dB at two adjacent', [20, 30, 30], true)
    check(source, 'asha-1994', '15 dB at one', [35], false)
    check(source, 'asha-1994', '20 dB at one', [40], true)
    check(source, 'asha-1994', 'loss of response at three', [20, 20, 20, 20, 20, none, none, none], true)
  })

  it('AAO-HNS 1995: more than 10 dB or more than 15 points', () => {
    const source = 'AAO-HNS 1995, change'
    const change = (after: number, before: number, later: number) =>
      changeBy(
        {
          audiograms: { before: base, after: row(20, after, after, after, after) },
          wordScores: { before, after: later },
        },
        'aao-change',
      ).worse
    const decision = { source, tolerance: 0, why: 'a decision' } as const
    checkValue({ ...decision, what: '10 dB and 15 points', expected: false, actual: change(30, 80, 65) })
    checkValue({ ...decision, what: '11 dB', expected: true, actual: change(31, 80, 80) })
    checkValue({ ...decision, what: '16 points', expected: true, actual: change(20, 80, 64) })
  })
})
