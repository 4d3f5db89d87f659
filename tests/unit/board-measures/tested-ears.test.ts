import { describe, expect, it } from 'vitest'
import {
  earlierOfBoth,
  previousTest,
  testedEarOf,
  testedEarsOf,
  testsToMeasure,
} from '../../../lib/board/tested-ears.ts'
import { hearingTest, points } from '../../fixtures/hearing-tests.ts'

const closing = { by: 'p-1', at: '2026-03-03T09:00:00.000Z', reason: 'repeated' }
const on = (performedOn: string, parts: Parameters<typeof hearingTest>[0] = {}) =>
  hearingTest({ id: `t-${performedOn}`, performedOn, ...parts })

describe('a test as the rules read it', () => {
  it('lets the masked threshold stand and keeps what was found without masking', () => {
    const ear = testedEarOf(hearingTest({ points: points({ 'bone.unmasked.1000': 10, 'bone.masked.1000': 35 }) }))
    expect(ear.bone.get(1000)).toEqual({ kind: 'heard', level: 35, masked: true })
    expect(ear.boneBeforeMasking?.get(1000)).toEqual({ kind: 'heard', level: 10, masked: false })
    expect(ear.airTransducer).toBe('supra-aural')
  })

  it('keeps "no response" as such, masked or not', () => {
    const ear = testedEarOf(
      hearingTest({ points: points({ 'air.unmasked.500': { none: 110 }, 'air.masked.500': { none: 120 } }) }),
    )
    expect(ear.air.get(500)).toEqual({ kind: 'no-response', limit: 120, masked: true })
    expect(ear.airBeforeMasking?.get(500)).toEqual({ kind: 'no-response', limit: 110, masked: false })
  })

  it('has no thresholds for an ear without a test', () => {
    expect(testedEarsOf(hearingTest(), undefined).left.air.size).toBe(0)
  })
})

describe('the test before', () => {
  it('is the last of the same ear and condition, superseded or not, never one entered in error', () => {
    const now = on('2026-05-02')
    const tests = [
      now,
      on('2026-01-02', { state: 'superseded', closing }),
      on('2026-03-02', { state: 'superseded', closing }),
      on('2026-04-02', { state: 'entered-in-error', closing }),
      on('2026-04-03', { ear: 'left' }),
      on('2026-04-04', { condition: 'aided', points: {} }),
      on('2026-06-02', { state: 'superseded', closing }),
    ]
    expect(previousTest(tests, now)?.performedOn).toBe('2026-03-02')
    expect(previousTest(tests.toReversed(), now)?.performedOn).toBe('2026-03-02')
    expect(previousTest([now], now)).toBeUndefined()
  })

  it('of both ears is needed for the suspicion of exchanged ears', () => {
    const right = on('2026-05-02', { id: 'r' })
    const left = on('2026-05-02', { id: 'l', ear: 'left' })
    const before = on('2026-03-02', { id: 'r0', state: 'superseded', closing })
    expect(earlierOfBoth([right, left, before], right, left)).toEqual([])
    const other = on('2026-03-09', { id: 'l0', ear: 'left', state: 'superseded', closing })
    expect(earlierOfBoth([right, left, before, other], right, left)).toMatchObject([{ date: '2026-03-09' }])
  })
})

describe('the tests that measures are taken from', () => {
  it('are the chosen one in its condition and the current ones in the others', () => {
    const old = on('2026-01-02', { state: 'superseded', closing })
    const current = on('2026-05-02')
    const aided = on('2026-05-03', { condition: 'aided', points: {} })
    expect(testsToMeasure([old, current, aided], 'right', old)).toEqual({ unaided: old, aided })
    expect(testsToMeasure([old, current, aided], 'right', undefined)).toEqual({ unaided: current, aided })
    expect(testsToMeasure([old, current, aided], 'left', old)).toEqual({})
  })
})
