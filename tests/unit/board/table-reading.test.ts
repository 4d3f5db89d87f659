import { describe, expect, test } from 'vitest'
import * as Y from 'yjs'
import { raiseQuestion } from '../../../lib/board/edits/floor.ts'
import { enterTest, setPoint } from '../../../lib/board/edits/hearing.ts'
import { changeRecord, type Pen, removeRecord } from '../../../lib/board/edits/writing.ts'
import { readTable } from '../../../lib/board/reading.ts'
import { TableReading, tableReading } from '../../../lib/board/table-reading.ts'

let minted = 0
const pen: Pen = {
  participant: 'p-team',
  now: () => new Date('2026-03-02T10:00:00Z'),
  newId: () => `id-${++minted}`,
}
const newTest = { ear: 'right', condition: 'unaided', performedOn: '2026-03-01', origin: 'typed', note: '' } as const

function listened(doc: Y.Doc) {
  const reading = new TableReading(doc, 'questions')
  let calls = 0
  const stop = reading.subscribe(() => {
    calls += 1
  })
  return { reading, stop, calls: () => calls }
}

describe('reading a table', () => {
  test('holds what readTable holds, after every edit', () => {
    const doc = new Y.Doc()
    const { reading } = listened(doc)
    const first = raiseQuestion(doc, pen, { text: 'One?' })
    raiseQuestion(doc, pen, { text: 'Two?' })
    expect(reading.getSnapshot()).toEqual(readTable(doc, 'questions'))
    changeRecord(doc, 'questions', first, { state: 'called' })
    expect(reading.getSnapshot()).toEqual(readTable(doc, 'questions'))
    removeRecord(doc, 'questions', first)
    expect(reading.getSnapshot()).toEqual(readTable(doc, 'questions'))
    expect(reading.record(first)).toBeUndefined()
  })

  test('a record that did not change keeps its identity, and so does the whole while nothing changed', () => {
    const doc = new Y.Doc()
    const { reading } = listened(doc)
    const first = raiseQuestion(doc, pen, { text: 'One?' })
    const second = raiseQuestion(doc, pen, { text: 'Two?' })
    const before = reading.record(second)
    const all = reading.getSnapshot()
    changeRecord(doc, 'questions', first, { text: 'One, please?' })
    expect(reading.record(second)).toBe(before)
    expect(reading.getSnapshot()).not.toBe(all)
    expect(reading.getSnapshot()).toBe(reading.getSnapshot())
  })

  test('notifies once an edit, and not for an edit that leaves everything as it was', () => {
    const doc = new Y.Doc()
    const { calls } = listened(doc)
    const id = raiseQuestion(doc, pen, { text: 'One?' })
    expect(calls()).toBe(1)
    const question = doc.getMap('questions').get(id) as Y.Map<unknown>
    question.set('text', 'One?')
    expect(calls()).toBe(1)
  })

  test('sees changes deep in a record', () => {
    const doc = new Y.Doc()
    const reading = new TableReading(doc, 'tests')
    reading.subscribe(() => undefined)
    const id = enterTest(doc, pen, { ...newTest, points: {} }, 'first')
    setPoint(doc, id, 'air.masked.1000', { kind: 'could-not-test' })
    expect(reading.record(id)?.points).toEqual({ 'air.masked.1000': { kind: 'could-not-test' } })
  })

  test('what changed before anybody listened is there once somebody does', () => {
    const doc = new Y.Doc()
    const reading = new TableReading(doc, 'questions')
    raiseQuestion(doc, pen, { text: 'One?' })
    reading.subscribe(() => undefined)
    expect(reading.getSnapshot()).toHaveLength(1)
  })

  test('an invalid record is left out until it is mended', () => {
    const doc = new Y.Doc()
    const { reading } = listened(doc)
    const id = raiseQuestion(doc, pen, { text: 'One?' })
    const question = doc.getMap('questions').get(id) as Y.Map<unknown>
    question.set('state', 'nonsense')
    expect(reading.getSnapshot()).toEqual([])
    question.set('state', 'raised')
    expect(reading.getSnapshot()).toHaveLength(1)
  })

  test('nothing is observed after the last listener left', () => {
    const doc = new Y.Doc()
    const { reading, stop, calls } = listened(doc)
    stop()
    raiseQuestion(doc, pen, { text: 'One?' })
    expect(calls()).toBe(0)
    expect(reading.getSnapshot()).toEqual([])
  })

  test('everybody gets the same reading of a document', () => {
    const doc = new Y.Doc()
    expect(tableReading(doc, 'questions')).toBe(tableReading(doc, 'questions'))
    expect(tableReading(new Y.Doc(), 'questions')).not.toBe(tableReading(doc, 'questions'))
  })
})
