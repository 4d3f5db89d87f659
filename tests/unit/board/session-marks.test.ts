import { describe, expect, it } from 'vitest'
import { parseRecord } from '../../../lib/board/judge.ts'
import type { KindName, RecordOf } from '../../../lib/board/records.ts'
import { marksOf } from '../../../lib/board/session-marks.ts'
import { sampleRecord } from '../../support/sample-records.ts'

const at = '2026-05-04T10:00:00.000Z'

function sample<K extends KindName>(kind: K, over: object = {}): RecordOf<K> {
  const parsed = parseRecord(kind, 'one', { ...sampleRecord(kind, 'one', 'anna'), ...over })
  if (!parsed.ok) throw new TypeError(JSON.stringify(parsed.refused))
  return parsed.record as RecordOf<K>
}

const statesOf = <K extends KindName>(kind: K, before: object | undefined, after: object | undefined) =>
  marksOf({
    kind,
    id: 'one',
    before: before && sample(kind, before),
    after: after && sample(kind, after),
  }).map(({ state }) => state)

describe('a time line', () => {
  it('marks a question when it is raised and each time it moves', () => {
    expect(statesOf('questions', undefined, {})).toEqual(['raised'])
    expect(statesOf('questions', {}, { state: 'called' })).toEqual(['called'])
    expect(statesOf('questions', {}, { text: 'Reworded?' })).toEqual([])
  })

  it('marks what becomes of steps and contingencies, not that they were written ahead', () => {
    expect(statesOf('steps', undefined, {})).toEqual([])
    expect(statesOf('steps', {}, { state: 'under-way' })).toEqual(['under-way'])
    expect(statesOf('contingencies', undefined, {})).toEqual([])
    expect(statesOf('contingencies', {}, { state: 'met' })).toEqual(['met'])
  })

  it('marks a step that was added and marked without a link, and one that went on before its prerequisite', () => {
    expect(statesOf('steps', undefined, { state: 'done' })).toEqual(['done'])
    const after = sample('stepExceptions', { step: 'fix-the-implant' })
    expect(marksOf({ kind: 'stepExceptions', id: 'one', after })).toEqual([
      { kind: 'steps', record: 'fix-the-implant', state: 'jumped' },
    ])
  })

  it('marks a photograph when it is added, not when its caption changes', () => {
    expect(statesOf('pictures', undefined, {})).toEqual(['added'])
    expect(statesOf('pictures', {}, { caption: 'The niche, dry' })).toEqual([])
  })

  it('marks findings and decisions when they are begun, made into one another and struck', () => {
    const struck = { by: 'anna', at, reason: 'of the other ear' }
    expect(statesOf('notes', undefined, { kind: 'finding' })).toEqual(['finding'])
    expect(statesOf('notes', { kind: 'finding' }, { kind: 'decision', struck })).toEqual(['decision', 'struck'])
    expect(statesOf('notes', { struck }, { struck })).toEqual([])
  })

  it('marks nothing of other records, and no removal', () => {
    expect(statesOf('annotations', undefined, {})).toEqual([])
    expect(statesOf('steps', {}, undefined)).toEqual([])
  })
})
