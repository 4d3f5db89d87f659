import { describe, expect, it } from 'vitest'
import { mayImport, previewOf } from '../../../app/board/hearing/import-preview.ts'
import { companions, shownTest, testOrder } from '../../../app/board/hearing/tests-shown.ts'
import type { HearingTest } from '../../../lib/board/records/hearing-test.ts'
import { hearingTest, points } from '../../fixtures/hearing-tests.ts'

const closing = { by: 'p-1', at: '2026-03-03T09:00:00.000Z', reason: 'repeated' }
const superseded = (parts: Partial<HearingTest>) => hearingTest({ state: 'superseded', closing, ...parts })
const flat = (level: number, route = 'air') =>
  points(Object.fromEntries([500, 1000, 2000, 3000, 4000].map((hz) => [`${route}.unmasked.${hz}`, level])))

describe('the test on the chart', () => {
  const current = hearingTest({ id: 't-2' })
  const old = superseded({ id: 't-1' })
  const aided = hearingTest({ id: 't-3', condition: 'aided', points: {} })

  it('is the current one without a device unless another was chosen', () => {
    expect(shownTest([old, aided, current], 'right', undefined)?.id).toBe('t-2')
    expect(shownTest([old, aided, current], 'right', 't-1')?.id).toBe('t-1')
    expect(shownTest([old, aided, current], 'left', undefined)).toBeUndefined()
  })

  it('is joined by the current tests in other conditions, but never when it is not current itself', () => {
    expect(companions([old, aided, current], current).map(({ id }) => id)).toEqual(['t-3'])
    expect(companions([old, aided, current], old)).toEqual([])
  })

  it('stands in a list with current tests first and then the latest', () => {
    const latest = superseded({ id: 't-4', performedOn: '2026-04-01' })
    expect([old, latest, current].sort(testOrder).map(({ id }) => id)).toEqual(['t-2', 't-4', 't-1'])
  })
})

describe('an import', () => {
  const rows = (ear: string, level: number) => [500, 1000, 2000, 4000].map((hz) => `${ear},air,no,${hz},${level},heard`)
  const table = (...lines: string[]) => ['ear,route,masked,frequency_hz,level_db_hl,response', ...lines].join('\n')
  const known = [hearingTest({ id: 'r', points: flat(70) }), hearingTest({ id: 'l', ear: 'left', points: flat(10) })]
  const nothing = { goodRowsOnly: false, earsCompared: false }

  it('may begin without a fault', () => {
    const preview = previewOf(table(...rows('right', 70), ...rows('left', 10)), known, '2026-05-02')
    expect(preview.tests.map(({ ear, performedOn }) => `${ear} ${performedOn}`)).toEqual([
      'right 2026-05-02',
      'left 2026-05-02',
    ])
    expect(mayImport(preview, nothing)).toBe(true)
  })

  it('leaves faulty rows out only when that was chosen', () => {
    const preview = previewOf(table(...rows('right', 70), 'right,air,no,8000,999,heard'), known, '2026-05-02')
    expect(mayImport(preview, nothing)).toBe(false)
    expect(mayImport(preview, { ...nothing, goodRowsOnly: true })).toBe(true)
  })

  it('stops when right and left look exchanged until somebody has compared them', () => {
    const preview = previewOf(table(...rows('right', 10), ...rows('left', 70)), known, '2026-05-02')
    expect(preview.earsLookSwapped).toBe(true)
    expect(mayImport(preview, nothing)).toBe(false)
    expect(mayImport(preview, { ...nothing, earsCompared: true })).toBe(true)
  })

  it('never begins from a file that cannot be read or holds nothing', () => {
    for (const text of ['', 'patient,value\n1,2'])
      expect(mayImport(previewOf(text, known, '2026-05-02'), { goodRowsOnly: true, earsCompared: true })).toBe(false)
  })
})
