import { describe, expect, it } from 'vitest'
import { binomialAtMost } from '../../../lib/speech/binomial.ts'
import { wilsonInterval } from '../../../lib/speech/binomial-interval.ts'
import { combineLists } from '../../../lib/speech/combined-lists.ts'
import { compareScores, criticalRange } from '../../../lib/speech/critical-difference.ts'
import { unaidedIndex, wordsAt65InQuiet } from '../../../lib/speech/ear-index.ts'
import { exactInterval } from '../../../lib/speech/exact-interval.ts'
import { scoreAgainstExpectation } from '../../../lib/speech/expected-score.ts'
import { rollover, rolloverIndex } from '../../../lib/speech/rollover.ts'
import { expectedScore, indexForScore } from '../../../lib/speech/score-transfer.ts'
import { proportionCorrect, type WordScore } from '../../../lib/speech/word-score.ts'
import { audiogram } from '../../fixtures/audiograms.ts'

const of25 = (correct: number): WordScore => ({ correct, presented: 25 })
const of50 = (correct: number): WordScore => ({ correct, presented: 50 })

describe('two scores', () => {
  it('differ only beyond the critical range', () => {
    expect(compareScores(of25(22), of25(24)).verdict).toBe('no-significant-difference')
    expect(compareScores(of25(22), of25(25)).verdict).toBe('higher')
    expect(compareScores(of25(22), of25(16)).verdict).toBe('lower')
  })

  it('are borderline one word on either side of the critical range, and nowhere else', () => {
    const borderline = (correct: number) => compareScores(of25(20), of25(correct)).borderline
    // 80 % of 25 words: 56 to 96 %, that is 14 to 24 words.
    expect([12, 13, 14, 15].map(borderline)).toEqual([false, true, true, false])
    expect([23, 24, 25].map(borderline)).toEqual([false, true, true])
  })

  it('are never borderline at an end of the range that is an end of the list', () => {
    expect(compareScores(of25(25), of25(25)).borderline).toBe(false)
    expect(compareScores(of25(2), of25(0)).borderline).toBe(false)
  })

  it('need a larger change with shorter lists', () => {
    const short = criticalRange({ correct: 5, presented: 10 })
    const long = criticalRange(of50(25))
    expect(short.lowest / 10).toBeLessThan(long.lowest / 50)
  })
})

describe('combined lists', () => {
  it('add words, not percentages', () => {
    const { score, consistent, lists } = combineLists([of25(20), of50(30)])
    expect(score).toEqual({ correct: 50, presented: 75 })
    expect({ consistent, lists }).toEqual({ consistent: true, lists: 2 })
  })

  it('are not consistent when two of them differ significantly', () => {
    expect(combineLists([of50(45), of50(20)]).consistent).toBe(false)
    expect(combineLists([of50(45), of50(40), of50(30)]).consistent).toBe(false)
  })

  it('are surer than one list', () => {
    const one = exactInterval(of25(20))
    const exact = exactInterval(combineLists([of25(20), of25(20)]).score)
    expect(exact.high - exact.low).toBeLessThan(one.high - one.low)
  })
})

describe('rollover', () => {
  const at = (levelDb: number, correct: number) => ({ levelDb, score: of25(correct) })

  it('looks only at levels above the best score', () => {
    const result = rollover([at(50, 5), at(70, 24), at(90, 18)])
    expect(result).toMatchObject({ kind: 'evaluable', index: 0.25, best: at(70, 24), poorest: at(90, 18) })
  })

  it('takes the points in any order and the lowest level of equal best scores', () => {
    const result = rollover([at(90, 18), at(80, 24), at(70, 24)])
    expect(result).toMatchObject({ kind: 'evaluable', best: at(70, 24), poorest: at(90, 18) })
  })

  it('tells whether the drop is more than chance', () => {
    const small = rollover([at(70, 10), at(90, 7)])
    expect(small).toMatchObject({ drop: { verdict: 'no-significant-difference' } })
    expect(rollover([at(70, 24), at(90, 10)])).toMatchObject({ drop: { verdict: 'lower' } })
  })

  it('is not evaluable without a level above the best, or with nothing correct', () => {
    expect(rollover([at(50, 10), at(90, 24)])).toEqual({ kind: 'not-evaluable', reason: 'no-level-above-best' })
    expect(rollover([at(50, 0), at(90, 0)])).toEqual({ kind: 'not-evaluable', reason: 'nothing-correct' })
  })
})

describe('score against the audiogram', () => {
  const nu6 = { ...wordsAt65InQuiet, material: 'nu6' } as const
  const ear = unaidedIndex({ air: audiogram({ 250: 30, 1000: 35, 4000: 50 }) }, nu6)

  it('is as expected within the chance of drawing the words', () => {
    const { expected, lowest, highest } = scoreAgainstExpectation(ear, 'nu6', of50(40))
    expect(expected).toBe(expectedScore('nu6', ear.index))
    const verdict = (correct: number) => scoreAgainstExpectation(ear, 'nu6', of50(correct)).verdict
    expect([lowest - 1, lowest, highest, highest + 1].map(verdict)).toEqual([
      'below',
      'as-expected',
      'as-expected',
      'above',
    ])
  })

  it('has the range of the binomial distribution', () => {
    // R 4.2.2: qbinom(c(.025, .975), 50, .6)
    const index = indexForScore('nu6', 0.6)
    const { lowest, highest } = scoreAgainstExpectation({ ...ear, index }, 'nu6', of50(30))
    expect([lowest, highest]).toEqual([23, 37])
  })

  it('cannot be called too low against an upper bound, but can be called too high', () => {
    const bounded = unaidedIndex({ air: audiogram({ 250: 30, 1000: 35, 4000: { none: 60 } }) }, nu6)
    expect(scoreAgainstExpectation(bounded, 'nu6', of50(0)).verdict).toBe('cannot-tell')
    expect(scoreAgainstExpectation(bounded, 'nu6', of50(50)).verdict).toBe('above')
  })

  it('is shown with its reservation', () => {
    expect(scoreAgainstExpectation(ear, 'nu6', of50(40)).transfer.status).toBe('from memory, unconfirmed')
  })

  it('is refused for another material than the index was weighed for', () => {
    expect(() => scoreAgainstExpectation(ear, 'cid-w22', of50(40))).toThrow(/weighed for nu6.*cid-w22/)
  })
})

describe('scores out of domain', () => {
  it.each([
    { call: () => exactInterval({ correct: 0, presented: 0 }), message: /score.presented is 0.*from 1/ },
    { call: () => wilsonInterval({ correct: 26, presented: 25 }), message: /score.correct is 26.*from 0 to 25/ },
    { call: () => exactInterval(of25(12.5)), message: /score.correct is 12.5.*integer/ },
    { call: () => wilsonInterval(of25(20), 1), message: /confidence is 1.*between 0 and 1/ },
    { call: () => proportionCorrect({ correct: Number.NaN, presented: 25 }), message: /score.correct is NaN/ },
    { call: () => criticalRange(of25(20), 0), message: /presented is 0/ },
    { call: () => compareScores(of25(20), { correct: -1, presented: 25 }), message: /second.correct is -1/ },
    { call: () => combineLists([]), message: /number of lists is 0.*at least 1/ },
    { call: () => combineLists([of25(20), of25(30)]), message: /lists\[1\].correct is 30/ },
    { call: () => rolloverIndex(0, 0), message: /pbMax is 0/ },
    { call: () => rolloverIndex(50, 60), message: /pbMin is 60.*0 to 50/ },
    { call: () => rollover([{ levelDb: 70, score: of25(20) }]), message: /number of points is 1.*at least 2/ },
    { call: () => expectedScore('nu6', 1.1), message: /index is 1.1/ },
    { call: () => expectedScore('nu6', 0.5, 0), message: /proficiency is 0/ },
    { call: () => indexForScore('nu6', 1), message: /score is 1.*0 to 0.98/ },
    { call: () => binomialAtMost(3, 10, 1.5), message: /p is 1.5/ },
  ])('are refused: $message', ({ call, message }) => {
    expect(call).toThrow(RangeError)
    expect(call).toThrow(message)
  })
})
