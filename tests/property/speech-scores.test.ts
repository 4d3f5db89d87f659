import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { binomialAtMost } from '../../lib/speech/binomial.ts'
import { wilsonInterval } from '../../lib/speech/binomial-interval.ts'
import { combineLists } from '../../lib/speech/combined-lists.ts'
import { compareScores, criticalRange } from '../../lib/speech/critical-difference.ts'
import { exactInterval } from '../../lib/speech/exact-interval.ts'
import { rollover } from '../../lib/speech/rollover.ts'
import type { WordScore } from '../../lib/speech/word-score.ts'

const score: fc.Arbitrary<WordScore> = fc
  .integer({ min: 1, max: 120 })
  .chain((presented) =>
    fc.record({ correct: fc.integer({ min: 0, max: presented }), presented: fc.constant(presented) }),
  )
const confidence = fc.double({ min: 0.5, max: 0.999, noNaN: true })
const mirrored = ({ correct, presented }: WordScore): WordScore => ({ correct: presented - correct, presented })

describe.each([
  { name: 'exact interval', interval: exactInterval },
  { name: 'Wilson interval', interval: wilsonInterval },
])('$name', ({ interval }) => {
  it('holds the score and stays within 0 and 1', () => {
    fc.assert(
      fc.property(score, confidence, (measured, wanted) => {
        const { low, high, proportion } = interval(measured, wanted)
        expect(low).toBeGreaterThanOrEqual(0)
        expect(low).toBeLessThanOrEqual(proportion)
        expect(high).toBeGreaterThanOrEqual(proportion)
        expect(high).toBeLessThanOrEqual(1)
      }),
    )
  })

  it('shrinks with a longer list of the same score', () => {
    fc.assert(
      fc.property(score, fc.integer({ min: 2, max: 5 }), (measured, times) => {
        const longer = { correct: measured.correct * times, presented: measured.presented * times }
        const width = (of: WordScore) => interval(of).high - interval(of).low
        expect(width(longer)).toBeLessThan(width(measured))
      }),
    )
  })

  it('widens with the confidence', () => {
    fc.assert(
      fc.property(score, confidence, (measured, wanted) => {
        const wide = interval(measured, (1 + wanted) / 2)
        const narrow = interval(measured, wanted)
        expect(wide.low).toBeLessThanOrEqual(narrow.low + 1e-12)
        expect(wide.high).toBeGreaterThanOrEqual(narrow.high - 1e-12)
      }),
    )
  })

  it('is mirrored when right and wrong are exchanged', () => {
    fc.assert(
      fc.property(score, (measured) => {
        expect(interval(mirrored(measured)).low).toBeCloseTo(1 - interval(measured).high, 9)
      }),
    )
  })
})

it('the exact interval excludes exactly the proportions that make the score improbable', () => {
  fc.assert(
    fc.property(score, ({ correct, presented }) => {
      const { low, high } = exactInterval({ correct, presented })
      if (correct < presented) expect(binomialAtMost(correct, presented, high)).toBeCloseTo(0.025, 8)
      if (correct > 0) expect(1 - binomialAtMost(correct - 1, presented, low)).toBeCloseTo(0.025, 8)
    }),
  )
})

describe('two scores', () => {
  it('differ as much in either order', () => {
    fc.assert(
      fc.property(score, score, (a, b) => {
        const [there, back] = [compareScores(a, b), compareScores(b, a)]
        expect(there.z).toBeCloseTo(-back.z, 12)
        expect(there.pValue).toBeCloseTo(back.pValue, 12)
        const opposite = { higher: 'lower', lower: 'higher', 'no-significant-difference': 'no-significant-difference' }
        expect(back.verdict).toBe(opposite[there.verdict])
      }),
    )
  })

  it('give a verdict that agrees with the probability and with the range', () => {
    fc.assert(
      fc.property(score, score, (a, b) => {
        const { pValue, verdict, range } = compareScores(a, b)
        expect(verdict !== 'no-significant-difference').toBe(pValue < 0.05)
        expect(b.correct >= range.lowest && b.correct <= range.highest).toBe(verdict === 'no-significant-difference')
      }),
    )
  })

  it('are the same when they are the same', () => {
    fc.assert(
      fc.property(score, fc.integer({ min: 1, max: 120 }), (a, presented) => {
        expect(compareScores(a, a)).toMatchObject({ z: 0, pValue: 1, verdict: 'no-significant-difference' })
        const { lowest, highest } = criticalRange(a, presented)
        expect(lowest).toBeGreaterThanOrEqual(0)
        expect(highest).toBeLessThanOrEqual(presented)
        expect(lowest).toBeLessThanOrEqual(highest)
      }),
    )
  })
})

describe('combined lists', () => {
  it('add up in any order and narrow the interval', () => {
    fc.assert(
      fc.property(fc.array(score, { minLength: 1, maxLength: 5 }), (lists) => {
        const combined = combineLists(lists)
        expect(combineLists(lists.toReversed())).toEqual(combined)
        const presented = lists.reduce((sum, list) => sum + list.presented, 0)
        expect(combined.score.presented).toBe(presented)
      }),
    )
  })
})

describe('rollover', () => {
  it('is a proportion whatever the function', () => {
    const point = fc.record({ levelDb: fc.integer({ min: 0, max: 100 }), score })
    fc.assert(
      fc.property(fc.array(point, { minLength: 2, maxLength: 6 }), (points) => {
        const result = rollover(points)
        if (result.kind === 'not-evaluable') return
        expect(result.index).toBeGreaterThanOrEqual(0)
        expect(result.index).toBeLessThanOrEqual(1)
        expect(result.poorest.levelDb).toBeGreaterThan(result.best.levelDb)
      }),
    )
  })
})
