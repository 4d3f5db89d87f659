import { describe, expect, it } from 'vitest'
import { codeOfSuccessor, findByCode } from '../../../app/code/find-by-code.ts'
import { recordCode } from '../../../lib/interchange/record-code.ts'
import { hearingTest, points } from '../../fixtures/hearing-tests.ts'

const now = hearingTest({ id: 'now', points: points({ 'air.unmasked.500': 40 }) })
const closing = { by: 'p-2', at: '2026-03-04T10:00:00.000Z', reason: 'retested', supersededBy: 'now' }
const old = hearingTest({ id: 'old', state: 'superseded', closing })
const tables = { tests: [old, now], speechTests: [] }

describe('a code typed from paper', () => {
  it('finds the record it was computed from, whatever its state', () => {
    expect(findByCode(recordCode(now), tables)?.test.id).toBe('now')
    expect(findByCode(recordCode(old), tables)?.test).toMatchObject({ id: 'old', state: 'superseded' })
  })

  it('is unknown when no record of the case has it', () => {
    expect(findByCode('0000-0001-2', tables)).toBeUndefined()
  })

  it('is answered by the current record when the same content was entered twice', () => {
    const again = hearingTest({ id: 'again' })
    expect(recordCode(again)).toBe(recordCode(old))
    expect(findByCode(recordCode(old), { ...tables, tests: [old, again] })?.test.id).toBe('again')
  })

  it('leads to the code of the record that took its place', () => {
    expect(codeOfSuccessor({ kind: 'hearing', test: old }, tables)).toBe(recordCode(now))
    expect(codeOfSuccessor({ kind: 'hearing', test: now }, tables)).toBeUndefined()
  })
})
