// ISO 8253-1:2010, Annex A, A.3.2: standard uncertainty of repeated determination, air 2.5 dB up to 4 kHz and 4 dB above,
// bone 3 and 5 dB; Table A.2: combined 4.9 dB. The SD of a difference is the square root of 2 times it.
import { describe, it } from 'vitest'
import { exactly } from '../../lib/audiometry/bounds.ts'
import { judgeChange, repeatability } from '../../lib/audiometry/test-retest.ts'
import { checkValue } from './record-check.ts'

const source = 'ISO 8253-1:2010, A.3.2'

describe('test-retest', () => {
  it('has the standard uncertainties of the annex', () => {
    const actual = [
      repeatability('air', 4000),
      repeatability('air', 6000),
      repeatability('bone', 4000),
      repeatability('bone', 6000),
    ].map((of) => of.standardUncertainty)
    checkValue({ source, what: 'air, bone', expected: [2.5, 4, 3, 5], actual, tolerance: 0, why: 'printed value' })
  })

  it('gives the SD and the 95 % range of a difference', () => {
    const all = [
      repeatability('air', 1000),
      repeatability('air', 8000),
      repeatability('bone', 1000),
      repeatability('bone', 8000),
    ]
    const why = 'given with one decimal'
    checkValue({
      source,
      what: 'SD',
      expected: [3.5, 5.7, 4.2, 7.1],
      actual: all.map((r) => r.sdOfDifference),
      tolerance: 0.05,
      why,
    })
    checkValue({
      source,
      what: '95 %',
      expected: [6.9, 11.1, 8.3, 13.9],
      actual: all.map((r) => r.chanceRange),
      tolerance: 0.05,
      why,
    })
    checkValue({
      source,
      what: 'SD of 2.5 dB',
      expected: 3.536,
      actual: all[0]?.sdOfDifference,
      tolerance: 0.0005,
      why: 'three decimals',
    })
  })

  it('lets 10 dB count at 4 kHz and not at 6 kHz', () => {
    const at4000 = judgeChange(exactly(10), repeatability('air', 4000))
    const at6000 = judgeChange(exactly(10), repeatability('air', 6000))
    checkValue({ source, what: '10 dB at 4 kHz', expected: 'worse', actual: at4000, tolerance: 0, why: 'a decision' })
    checkValue({
      source,
      what: '10 dB at 6 kHz',
      expected: 'within test-retest error',
      actual: at6000,
      tolerance: 0,
      why: 'a decision',
    })
  })
})
