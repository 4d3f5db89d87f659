import { describe, expect, it } from 'vitest'
import { symbolFor } from '../../../app/audiogram/symbols.ts'
import type { PointRoute } from '../../../lib/board/records/hearing-test.ts'
import type { Ear } from '../../../lib/units/frequencies.ts'

const sign = (ear: Ear, route: PointRoute, masked = false, noResponse = false) =>
  symbolFor({ ear, route, masked, noResponse })

// ASHA, Guidelines for audiometric symbols, 1990 (GL1990-00006); 21 NCAC 22I .0111, Symbols for audiograms.
describe('audiogram signs', () => {
  it.each([
    ['right', 'air', false, 'circle'],
    ['left', 'air', false, 'cross'],
    ['right', 'air', true, 'triangle'],
    ['left', 'air', true, 'square'],
    ['right', 'bone', false, 'angle-right-ear'],
    ['left', 'bone', false, 'angle-left-ear'],
    ['right', 'bone', true, 'bracket-right-ear'],
    ['left', 'bone', true, 'bracket-left-ear'],
    ['right', 'sound-field', false, 'letter-s'],
    ['left', 'sound-field', false, 'letter-s'],
    ['right', 'aided', false, 'letter-a'],
    ['left', 'aided', false, 'letter-a'],
  ] as const)('%s ear, %s, masked %s: %s', (ear, route, masked, shape) => {
    expect(sign(ear, route, masked).shape).toBe(shape)
  })

  it('has the arrow of no response point down and away from the nose: viewer left for the right ear', () => {
    expect(sign('right', 'air', false, true).arrow).toBe('down-left')
    expect(sign('left', 'bone', true, true).arrow).toBe('down-right')
    expect(sign('left', 'air').arrow).toBeUndefined()
  })

  it('stands air-conduction signs on the frequency line and bone-conduction signs beside it, right ear to the left', () => {
    expect(sign('right', 'air').side).toBe('on-line')
    expect(sign('right', 'bone').side).toBe('left')
    expect(sign('left', 'bone').side).toBe('right')
  })

  it('never gives two signs of one route and frequency the same shape at the same place', () => {
    for (const route of ['air', 'bone', 'sound-field', 'aided'] as const) {
      const drawn = (['right', 'left'] as const).flatMap((ear) =>
        (route === 'air' || route === 'bone' ? [false, true] : [false]).map((masked) => {
          const { shape, side, offset } = sign(ear, route, masked)
          return `${shape} ${side} ${offset}`
        }),
      )
      expect(new Set(drawn).size).toBe(drawn.length)
    }
  })
})
