import { describe, expect, it } from 'vitest'
import * as Y from 'yjs'
import { raiseQuestion, toggleBacking } from '../../../lib/board/edits/floor.ts'
import { annotate } from '../../../lib/board/edits/hearing.ts'
import { forgetVideoDelay, keepVideoDelay, videoDelayOf } from '../../../lib/board/edits/video-delay.ts'
import { readTable } from '../../../lib/board/reading.ts'
import {
  isUnsteady,
  judgePress,
  markAt,
  markEveryMs,
  msToNextMark,
  summariseDelays,
} from '../../../lib/board/video-delay.ts'
import { asDbHl } from '../../../lib/units/levels.ts'

/** A moment at which number 1 comes up: a whole number of rounds of 100 s. */
const roundStart = 1_800_000_000_000
const penOf = (participant: string, delayMs?: number) => {
  let made = 0
  const now = () => new Date('2026-05-04T09:00:30.000Z')
  return { participant, now, newId: () => `${participant}-${++made}`, videoDelayMs: () => delayMs }
}

describe('the mark on the main screen', () => {
  it('counts from 1 to 25 and begins again, every four seconds', () => {
    expect([0, 3999, 4000, 96_000, 99_999, 100_000].map((ms) => markAt(roundStart + ms))).toEqual([1, 1, 2, 25, 25, 1])
    expect([0, 1, 3999].map((ms) => msToNextMark(roundStart + ms))).toEqual([markEveryMs, 3999, 1])
  })
})

describe('a press', () => {
  const press = (sinceMs: number, mark: number) => judgePress({ pressedAtMs: roundStart + sinceMs, mark })

  it('is as late as the change to the number that was seen is past', () => {
    expect(press(12_300, 1)).toEqual({ ok: true, delayMs: 12_300 })
    expect(press(12_300, 3)).toEqual({ ok: true, delayMs: 4300 })
    expect(press(2000, 25)).toEqual({ ok: true, delayMs: 6000 })
    expect(press(90_000, 1)).toEqual({ ok: true, delayMs: 90_000 })
  })

  it('is refused before the change, after more than 90 s, and at a number that there is none of', () => {
    expect(press(-1, 1)).toEqual({ ok: false, why: 'before-the-change' })
    expect(press(3000, 2)).toEqual({ ok: false, why: 'before-the-change' })
    expect(press(90_001, 1)).toEqual({ ok: false, why: 'longer-than-any-delay' })
    for (const mark of [0, 26, 2.5, Number.NaN]) expect(press(1000, mark)).toEqual({ ok: false, why: 'no-such-mark' })
    expect(() => judgePress({ pressedAtMs: Number.NaN, mark: 1 })).toThrow(RangeError)
  })
})

describe('the summary', () => {
  it('is the median with the range', () => {
    expect(summariseDelays([12_400, 11_800, 12_100])).toEqual({ medianMs: 12_100, lowMs: 11_800, highMs: 12_400 })
    expect(summariseDelays([10, 20])).toEqual({ medianMs: 15, lowMs: 10, highMs: 20 })
    expect(isUnsteady(summariseDelays([9000, 11_000]))).toBe(false)
    expect(isUnsteady(summariseDelays([9000, 11_001]))).toBe(true)
  })

  it('refuses nothing at all, and what is no delay', () => {
    for (const delays of [[], [-1], [90_001], [Number.NaN]]) expect(() => summariseDelays(delays)).toThrow(RangeError)
  })
})

describe('what is written with a known delay', () => {
  it('keeps the last measurement of a person, and forgets it', () => {
    const doc = new Y.Doc()
    const pen = penOf('anna')
    keepVideoDelay(doc, pen, { delaysMs: [1000, 2000, 3000], clockErrorMs: 12 })
    keepVideoDelay(doc, pen, { delaysMs: [12_000, 13_000, 12_500], clockErrorMs: 12 })
    expect(readTable(doc, 'videoDelays')).toHaveLength(1)
    expect(videoDelayOf(doc, 'anna')).toBe(12_500)
    expect(videoDelayOf(doc, 'bo')).toBeUndefined()
    forgetVideoDelay(doc, pen)
    expect(videoDelayOf(doc, 'anna')).toBeUndefined()
  })

  it('carries the moment of the picture: questions, backings and pins', () => {
    const doc = new Y.Doc()
    const anna = penOf('anna', 12_500.4)
    const question = raiseQuestion(doc, penOf('bo'), { text: 'Is it mobile?' })
    toggleBacking(doc, anna, question)
    annotate(doc, anna, { place: { kind: 'pin', ear: 'right', frequency: 2000, level: asDbHl(60) }, text: 'notch' })
    const at = '2026-05-04T09:00:17.500Z'
    expect(readTable(doc, 'backings')[0]?.pictureAt).toBe(at)
    expect(readTable(doc, 'annotations')[0]?.pictureAt).toBe(at)
    expect(readTable(doc, 'questions')[0]).not.toHaveProperty('pictureAt')
  })
})
