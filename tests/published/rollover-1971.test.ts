import { describe, it } from 'vitest'
import { rollover, rolloverIndex } from '../../lib/speech/rollover.ts'
import { checkValue } from './record-check.ts'

const source = 'Jerger and Jerger 1971; Bess et al. 1979; Meyer and Mishler 1985 (from memory, unconfirmed)'

describe('rollover', () => {
  it('is the drop from the best score, as a part of it', () => {
    const why = '(92 - 44) / 92 = 0.5217, four decimals'
    checkValue({ source, what: 'index', expected: 0.5217, actual: rolloverIndex(92, 44), tolerance: 0.00005, why })
  })

  it.each([
    { drop: 22, criteria: [false, false, false] },
    { drop: 17, criteria: [false, true, false] },
    { drop: 15, criteria: [false, true, true] },
    { drop: 12, criteria: [true, true, true] },
  ])('from 24 of 25 to $drop of 25', ({ drop, criteria }) => {
    const result = rollover([
      { levelDb: 70, score: { correct: 24, presented: 25 } },
      { levelDb: 90, score: { correct: drop, presented: 25 } },
    ])
    const called = result.kind === 'evaluable' ? result.criteria.map(({ exceeded }) => exceeded) : []
    const what = `criteria 0.45, 0.25 and 0.35 exceeded, 24 to ${drop} words`
    checkValue({
      source,
      what,
      expected: criteria.map(String),
      actual: called.map(String),
      tolerance: 0,
      why: 'yes or no',
    })
  })
})
