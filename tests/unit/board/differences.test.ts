import { describe, expect, it } from 'vitest'
import * as Y from 'yjs'
import { differencesBetween } from '../../../lib/board/differences.ts'
import { addStep, moveStep } from '../../../lib/board/edits/decisions.ts'
import { raiseQuestion, toggleBacking } from '../../../lib/board/edits/floor.ts'
import { type Pen, removeRecord, writeSingle } from '../../../lib/board/edits/writing.ts'
import { readTable } from '../../../lib/board/reading.ts'

let made = 0
const pen = (participant = 'anna'): Pen => ({
  participant,
  now: () => new Date('2026-05-04T10:00:00.000Z'),
  newId: () => `r${++made}`,
})

/** A copy as it was, and the same after an edit. */
function beforeAndAfter(setUp: (doc: Y.Doc) => void, edit: (doc: Y.Doc) => void): [Y.Doc, Y.Doc] {
  const [before, after] = [new Y.Doc(), new Y.Doc()]
  setUp(before)
  Y.applyUpdate(after, Y.encodeStateAsUpdate(before))
  edit(after)
  return [before, after]
}

const nothing = (): void => undefined
const step = (doc: Y.Doc) => void addStep(doc, pen(), { title: 'Drill the bed', check: '', hazard: '' })

describe('the differences between two moments', () => {
  it('are none between equal states', () => {
    expect(differencesBetween('record', ...beforeAndAfter(step, nothing))).toEqual([])
  })

  it('name records that came and records that went', () => {
    expect(differencesBetween('record', ...beforeAndAfter(nothing, step))).toMatchObject([
      { kind: 'steps', record: { title: 'Drill the bed' }, change: { how: 'added' } },
    ])
    const remove = (doc: Y.Doc) => removeRecord(doc, 'steps', readTable(doc, 'steps')[0]?.id ?? '')
    expect(differencesBetween('record', ...beforeAndAfter(step, remove))).toMatchObject([
      { kind: 'steps', record: { title: 'Drill the bed' }, change: { how: 'removed' } },
    ])
  })

  it('name a move by its two states, without the times that belong to it', () => {
    const move = (doc: Y.Doc) => {
      for (const each of readTable(doc, 'steps')) moveStep(doc, pen(), each, 'under-way')
    }
    expect(differencesBetween('record', ...beforeAndAfter(step, move)).map(({ change }) => change)).toEqual([
      { how: 'moved', from: 'ahead', to: 'under-way', fields: [] },
    ])
  })

  it('name changed fields, without who wrote last and when', () => {
    const plan = { ear: 'right', malleus: 'mobile', incus: 'mobile', stapes: 'mobile', approach: '', aim: '' } as const
    const [before, after] = beforeAndAfter(
      (doc) => writeSingle(doc, pen(), 'plan', plan),
      (doc) => writeSingle(doc, pen('bo'), 'plan', { ...plan, incus: 'eroded', aim: 'Hear speech' }),
    )
    expect(differencesBetween('record', before, after).map(({ kind, change }) => [kind, change])).toEqual([
      ['plan', { how: 'changed', fields: ['incus', 'aim'] }],
    ])
  })

  it('belong to one document', () => {
    const [before, after] = beforeAndAfter(nothing, (doc) => {
      const id = raiseQuestion(doc, pen(), { text: 'Why there?' })
      toggleBacking(doc, pen('bo'), id)
    })
    expect(differencesBetween('record', before, after)).toEqual([])
    expect(differencesBetween('floor', before, after).map(({ kind }) => kind)).toEqual(['questions', 'backings'])
  })
})
