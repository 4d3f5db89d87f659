import { describe, expect, it } from 'vitest'
import { standardRange } from '../../../app/audiogram/geometry.ts'
import { remarksOn, wishOfNoResponse, wishOfText } from '../../../app/board/hearing/cell-entry.ts'
import { type Brush, changesOf, strokeAt, strokeMoved } from '../../../app/board/hearing/chart-entry.ts'
import { placeBetween } from '../../../app/board/hearing/chart-places.ts'
import { moved } from '../../../app/board/hearing/grid-moves.ts'
import { entryFrequencies } from '../../../app/board/hearing/hearing-view.ts'
import { asDbHl } from '../../../lib/units/levels.ts'
import { points } from '../../fixtures/hearing-tests.ts'

const air1000 = { route: 'air', masked: false, frequency: 1000 } as const
const at = (level: number) => ({ kind: 'heard', level: asDbHl(level) }) as const
const silent = (limit: number) => ({ kind: 'no-response', limit: asDbHl(limit) }) as const

describe('a cell of the grid', () => {
  it.each([
    ['45', at(45)],
    ['-5', at(-5)],
    ['42,5', at(42.5)],
    ['NR 110', silent(110)],
    ['cnt', { kind: 'could-not-test' }],
    ['', undefined],
  ])('takes "%s"', (text, point) => {
    expect(wishOfText(text, air1000)).toEqual({ kind: 'set', point })
  })

  it('refuses a level outside -20 to 130 dB HL and says the range', () => {
    for (const [text, value] of [
      ['-21', -21],
      ['130.5', 130.5],
    ] as const)
      expect(wishOfText(text, air1000)).toEqual({
        kind: 'fault',
        fault: { code: 'level-out-of-range', value, low: -20, high: 130 },
      })
    expect(wishOfText('130', air1000).kind).toBe('set')
    expect(wishOfText('-20', air1000).kind).toBe('set')
  })

  it('puts no response at what is typed, else at what stands there, else at the limit of the audiometer', () => {
    expect(wishOfNoResponse('105', at(40), air1000)).toEqual({ kind: 'set', point: silent(105) })
    expect(wishOfNoResponse('', at(40), air1000)).toEqual({ kind: 'set', point: silent(40) })
    // IEC 60645-1:2017 type 1, 120 dB HL at 1 kHz by air conduction (from memory, unconfirmed)
    expect(wishOfNoResponse('', undefined, air1000)).toEqual({ kind: 'set', point: silent(120) })
  })

  it('asks for the level of no response where no limit is known', () => {
    const aided = { route: 'aided', masked: false, frequency: 1000 } as const
    expect(wishOfNoResponse('', undefined, aided)).toEqual({
      kind: 'fault',
      fault: { code: 'no-response-needs-level' },
    })
  })

  it('remarks on levels between the steps and above the limit of the audiometer', () => {
    expect(remarksOn(at(42.5), air1000)).toEqual([{ code: 'off-grid' }])
    expect(remarksOn(at(125), air1000)).toEqual([{ code: 'beyond', limit: 120 }])
    expect(remarksOn(at(120), air1000)).toEqual([])
  })

  it('moves by arrows, Home and End and stays inside the grid', () => {
    const from = { row: 0, column: 1 }
    expect(moved(from, 'ArrowUp', 4, 12)).toEqual(from)
    expect(moved(from, 'ArrowDown', 4, 12)).toEqual({ row: 1, column: 1 })
    expect(moved(from, 'Home', 4, 12)).toEqual({ row: 0, column: 0 })
    expect(moved(from, 'End', 4, 12)).toEqual({ row: 0, column: 11 })
    expect(moved(from, '5', 4, 12)).toBeUndefined()
  })
})

describe('entry on the chart', () => {
  const brush: Brush = { route: 'air', masked: false, frequencies: entryFrequencies(false, true) }
  const press = (hz: number, dbHl: number, on = points({})) => strokeAt({ hz, dbHl }, brush, standardRange, on)

  it('sets the nearest frequency and 5 dB step', () => {
    expect([...changesOf(press(1050, 43), brush, {})]).toEqual([['air.unmasked.1000', at(45)]])
  })

  it('turns a sign that is pressed again into no response and back', () => {
    const heard = points({ 'air.unmasked.1000': 45 })
    expect([...changesOf(press(1000, 47, heard), brush, heard)]).toEqual([['air.unmasked.1000', silent(45)]])
    const none = points({ 'air.unmasked.1000': { none: 110 } })
    expect([...changesOf(press(1000, 110, none), brush, none)]).toEqual([['air.unmasked.1000', at(110)]])
  })

  it('moves a sign that is dragged, and keeps what it is', () => {
    const none = points({ 'air.unmasked.1000': { none: 110 } })
    const stroke = strokeMoved(press(1000, 110, none), { hz: 2000, dbHl: 101 }, brush, standardRange)
    expect([...changesOf(stroke, brush, none)]).toEqual([
      ['air.unmasked.1000', undefined],
      ['air.unmasked.2000', silent(100)],
    ])
  })

  it('does not take a trembling press for a drag', () => {
    const heard = points({ 'air.unmasked.1000': 45 })
    const stroke = strokeMoved(press(1000, 45, heard), { hz: 1040, dbHl: 49 }, brush, standardRange)
    expect([...changesOf(stroke, brush, heard)]).toEqual([['air.unmasked.1000', silent(45)]])
  })

  it('leaves signs of another masking alone', () => {
    const masked = points({ 'air.masked.1000': 45 })
    expect([...changesOf(press(1000, 45, masked), brush, masked)]).toEqual([['air.unmasked.1000', at(45)]])
  })

  it('offers only octaves to broad fingers', () => {
    expect(entryFrequencies(false, false)).toEqual([125, 250, 500, 1000, 2000, 4000, 8000])
    expect(entryFrequencies(true, false).at(-1)).toBe(16000)
  })
})

describe('a place picked on the chart', () => {
  it('is a pin at one frequency and a band from one to another, in either direction', () => {
    expect(placeBetween('left', { hz: 1000, dbHl: 38 }, { hz: 1010, dbHl: 42 })).toEqual({
      kind: 'pin',
      ear: 'left',
      frequency: 1000,
      level: 40,
    })
    const band = { kind: 'band', ear: 'right', from: 1000, to: 4000 }
    expect(placeBetween('right', { hz: 1000, dbHl: 0 }, { hz: 4000, dbHl: 0 })).toEqual(band)
    expect(placeBetween('right', { hz: 4000, dbHl: 0 }, { hz: 1000, dbHl: 0 })).toEqual(band)
  })
})
