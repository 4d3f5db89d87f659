import { describe, expect, it } from 'vitest'
import {
  dbHlAt,
  frameFor,
  frequenciesIn,
  hzAt,
  isOctave,
  nearestFrequency,
  nearestStep,
  rangeFor,
  standardRange,
  xOf,
  yOf,
} from '../../../app/audiogram/geometry.ts'
import { packLanes } from '../../../app/audiogram/lanes.ts'

const frames = [
  frameFor({ width: 344 }, standardRange, 13),
  frameFor({ width: 1800, height: 900 }, standardRange, 28),
  frameFor({ width: 700 }, { highHz: 16000, topDbHl: -20, bottomDbHl: 130 }, 13, 40),
]

// ISO 8253-1 / ANSI S3.6: one octave as long as 20 dB.
describe('chart geometry', () => {
  it.each(frames)('makes every octave exactly as long as 20 dB ($width px wide)', (frame) => {
    for (const hz of [125, 500, 3000]) {
      const octave = xOf(frame, 2 * hz) - xOf(frame, hz)
      expect(octave).toBeCloseTo(yOf(frame, 60) - yOf(frame, 40), 9)
    }
  })

  it('fits into the width, and into the height when there is one', () => {
    const [phone, screen] = frames
    expect(phone?.width).toBeCloseTo(344, 9)
    expect(screen?.height).toBeCloseTo(900, 9)
    expect(screen?.width).toBeLessThanOrEqual(1800)
  })

  it.each(frames)('reads back the place it draws ($width px wide)', (frame) => {
    expect(hzAt(frame, xOf(frame, 1500))).toBeCloseTo(1500, 6)
    expect(dbHlAt(frame, yOf(frame, 35))).toBeCloseTo(35, 9)
  })

  it('covers 125 Hz to 8 kHz and -10 to 120 dB HL unless a point lies outside', () => {
    expect(rangeFor([{ frequency: 8000, level: 120 }], false)).toEqual({ highHz: 8000, topDbHl: -10, bottomDbHl: 120 })
    expect(rangeFor([{ frequency: 9000, level: undefined }], false).highHz).toBe(16000)
    expect(rangeFor([{ frequency: 500, level: -15 }], false).topDbHl).toBe(-20)
    expect(rangeFor([{ frequency: 500, level: 125 }], false).bottomDbHl).toBe(130)
    expect(rangeFor([], true).highHz).toBe(16000)
  })

  it('tells octaves from half-octaves', () => {
    expect(frequenciesIn(standardRange).filter(isOctave)).toEqual([125, 250, 500, 1000, 2000, 4000, 8000])
  })

  it('takes the frequency that is nearest in octaves, not in Hz', () => {
    expect(nearestFrequency(1400, [1000, 2000])).toBe(1000)
    expect(nearestFrequency(1430, [1000, 2000])).toBe(2000) // the middle of the octave is 1414 Hz, of the interval 1500
  })

  it('takes the nearest 5 dB step inside the chart', () => {
    expect(nearestStep(42.4, standardRange)).toBe(40)
    expect(nearestStep(42.6, standardRange)).toBe(45)
    expect(nearestStep(200, standardRange)).toBe(120)
    expect(Object.is(nearestStep(-2, standardRange), 0)).toBe(true)
  })
})

describe('lanes under the plot', () => {
  it('keeps apart what overlaps and shares a lane where nothing does', () => {
    expect(
      packLanes([
        { from: 0, to: 10 },
        { from: 5, to: 15 },
        { from: 11, to: 20 },
      ]),
    ).toEqual([0, 1, 0])
  })
})
