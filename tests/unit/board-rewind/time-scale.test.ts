import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { timeScale } from '../../../app/board/rewind/time-scale.ts'

const minute = 60_000

describe('a time line', () => {
  it('is even while something happens', () => {
    const scale = timeScale([0, 10 * minute, 20 * minute])
    expect([scale.placeOf(5 * minute), scale.timeAt(0.75)]).toEqual([0.25, 15 * minute])
    expect(scale.cuts).toEqual([])
  })

  it('cuts a long pause to three minutes and says where', () => {
    const scale = timeScale([0, 3 * minute, 600 * minute, 603 * minute])
    expect(scale.placeOf(3 * minute)).toBeCloseTo(1 / 3)
    expect(scale.placeOf(600 * minute)).toBeCloseTo(2 / 3)
    expect(scale.cuts).toEqual([0.5])
  })

  it('has one moment when only one thing happened, and none is an error', () => {
    const scale = timeScale([7, 7])
    expect([scale.fromMs, scale.toMs, scale.placeOf(7), scale.timeAt(0.4)]).toEqual([7, 7, 0, 7])
    expect(() => timeScale([])).toThrow(RangeError)
  })

  it('keeps the order of moments, and finds each again at its place', () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 0, max: 400 * minute }), { minLength: 2, maxLength: 30 }),
        fc.integer({ min: 0, max: 400 * minute }),
        (moments, any) => {
          const sorted = [...new Set(moments)].sort((a, b) => a - b)
          const scale = timeScale(sorted)
          const inside = Math.min(Math.max(any, scale.fromMs), scale.toMs)
          expect(Math.abs(scale.timeAt(scale.placeOf(inside)) - inside)).toBeLessThanOrEqual(1)
          const places = sorted.map(scale.placeOf)
          expect(places).toEqual([...places].sort((a, b) => a - b))
          for (const place of places) expect(place).toBeGreaterThanOrEqual(0)
          for (const place of places) expect(place).toBeLessThanOrEqual(1)
        },
      ),
    )
  })
})
