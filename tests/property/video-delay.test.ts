import fc from 'fast-check'
import { expect, it } from 'vitest'
import { clockOffsetFrom } from '../../lib/board/server-clock.ts'
import { judgePress, markAt, markCount, markEveryMs, summariseDelays } from '../../lib/board/video-delay.ts'

const moment = fc.integer({ min: 1_700_000_000_000, max: 2_000_000_000_000 })
const delay = fc.integer({ min: 0, max: 90_000 })
const startOfMark = (ms: number): number => Math.floor(ms / markEveryMs) * markEveryMs

it('whoever sees a change that much later is told that delay, whatever it is', () => {
  fc.assert(
    fc.property(moment, delay, (now, lateMs) => {
      const changedAt = startOfMark(now)
      expect(judgePress({ pressedAtMs: changedAt + lateMs, mark: markAt(changedAt) })).toEqual({
        ok: true,
        delayMs: lateMs,
      })
    }),
  )
})

it('whoever presses up to five seconds before the change is never told a delay', () => {
  fc.assert(
    fc.property(moment, fc.integer({ min: 1, max: 4999 }), (now, earlyMs) => {
      const changesAt = startOfMark(now)
      expect(judgePress({ pressedAtMs: changesAt - earlyMs, mark: markAt(changesAt) })).toEqual({
        ok: false,
        why: 'before-the-change',
      })
    }),
  )
})

it('any press at any number is a delay from 0 to 90 s, or refused', () => {
  fc.assert(
    fc.property(moment, fc.integer({ min: -3, max: markCount + 3 }), (pressedAtMs, mark) => {
      const judged = judgePress({ pressedAtMs, mark })
      if (judged.ok) expect(judged.delayMs >= 0 && judged.delayMs <= 90_000).toBe(true)
      else expect(judged.why === 'no-such-mark').toBe(mark < 1 || mark > markCount)
    }),
  )
})

it('the median lies in the range, whatever the order of the presses, and moves with all of them', () => {
  fc.assert(
    fc.property(fc.array(fc.integer({ min: 0, max: 80_000 }), { minLength: 1, maxLength: 9 }), (delays) => {
      const summary = summariseDelays(delays)
      expect(summary.lowMs <= summary.medianMs && summary.medianMs <= summary.highMs).toBe(true)
      expect(summariseDelays([...delays].reverse())).toEqual(summary)
      expect(summariseDelays(delays.map((each) => each + 1000)).medianMs).toBe(summary.medianMs + 1000)
    }),
  )
})

it('the true offset lies within the error that is stated, however unequal the ways there and back', () => {
  const way = fc.integer({ min: 0, max: 3000 })
  fc.assert(
    fc.property(
      fc.integer({ min: -3_600_000, max: 3_600_000 }),
      fc.array(fc.record({ sentMs: moment, there: way, back: way }), { minLength: 1, maxLength: 8 }),
      (trueOffsetMs, asked) => {
        const exchanges = asked.map(({ sentMs, there, back }) => ({
          sentMs,
          serverMs: sentMs + there + trueOffsetMs,
          receivedMs: sentMs + there + back,
        }))
        const { offsetMs, errorMs } = clockOffsetFrom(exchanges)
        expect(Math.abs(offsetMs - trueOffsetMs)).toBeLessThanOrEqual(errorMs)
        expect(errorMs).toBe(Math.min(...asked.map(({ there, back }) => (there + back) / 2)))
      },
    ),
  )
})

it('a clock that jumped back between question and answer tells nothing', () => {
  expect(() => clockOffsetFrom([{ sentMs: 100, serverMs: 100, receivedMs: 90 }])).toThrow(RangeError)
  expect(() => clockOffsetFrom([])).toThrow(RangeError)
})
