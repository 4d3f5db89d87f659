import { describe, expect, test } from 'vitest'
import * as Y from 'yjs'
import { changedPlaces, type Place } from '../../../app/board/connection/changed-places.ts'
import {
  boundedDrafts,
  type Draft,
  draftLines,
  draftsOf,
  isBlamed,
  mostDrafts,
  readDrafts,
  writeAgain,
  writeAsItWas,
} from '../../../app/board/connection/drafts.ts'
import { startNote } from '../../../lib/board/edits/decisions.ts'
import { raiseQuestion, reply } from '../../../lib/board/edits/floor.ts'
import { enterTest, setPoint } from '../../../lib/board/edits/hearing.ts'
import { changeRecord, type Pen, writeSingle } from '../../../lib/board/edits/writing.ts'
import { readRecord, readTable } from '../../../lib/board/reading.ts'
import { refusal } from '../../../lib/board/refusals.ts'
import { fragmentOf } from '../../../lib/board/rich-text.ts'

let minted = 0
const pen: Pen = {
  participant: 'p-team',
  now: () => new Date('2026-03-02T10:00:00Z'),
  newId: () => `id-${++minted}`,
}
const origin = { reason: 'No.', at: '2026-03-02T10:00:00.000Z', newId: pen.newId }

/** Places touched by each of these edits, in order. */
function placesDuring(doc: Y.Doc, edit: () => void): Place[] {
  const places: Place[] = []
  const note = (transaction: Y.Transaction) => places.push(...changedPlaces(doc, transaction))
  doc.on('afterTransaction', note)
  edit()
  doc.off('afterTransaction', note)
  return places
}

const copyOf = (doc: Y.Doc): Y.Doc => {
  const copy = new Y.Doc()
  Y.applyUpdate(copy, Y.encodeStateAsUpdate(doc))
  return copy
}

const newTest = {
  ear: 'right',
  condition: 'unaided',
  performedOn: '2026-03-01',
  origin: 'typed',
  note: '',
  points: { 'air.masked.1000': { kind: 'could-not-test' } },
} as const

describe('places that an edit changed', () => {
  test('a new record is one place', () => {
    const floor = new Y.Doc()
    let id = ''
    const places = placesDuring(floor, () => {
      id = raiseQuestion(floor, pen, { text: 'Is the stapes mobile?' })
    })
    expect(places).toEqual([{ kind: 'questions', id }])
  })

  test('a changed field names the field, a changed point names its key', () => {
    const record = new Y.Doc()
    const id = enterTest(record, pen, newTest, 'repeat')
    const places = placesDuring(record, () => {
      changeRecord(record, 'tests', id, { note: 'tired' })
      setPoint(record, id, 'air.masked.2000', { kind: 'could-not-test' })
    })
    expect(places).toEqual([
      { kind: 'tests', id, field: 'note' },
      { kind: 'tests', id, field: 'points', key: 'air.masked.2000' },
    ])
  })

  test('writing inside a shared text names the text', () => {
    const record = new Y.Doc()
    const id = startNote(record, pen, 'finding', [{ type: 'paragraph', content: [{ text: 'Dry cavity' }] }])
    const body = (record.getMap('notes').get(id) as Y.Map<unknown>).get('body') as Y.XmlFragment
    const paragraph = body.get(0) as Y.XmlElement
    const places = placesDuring(record, () => (paragraph.get(0) as Y.XmlText).insert(0, 'A '))
    expect(places).toEqual([{ kind: 'notes', id, field: 'body' }])
  })
})

describe('drafts of what was refused', () => {
  test('a refused question is kept whole and can be raised again in a renewed copy', () => {
    const authority = new Y.Doc()
    const floor = copyOf(authority)
    const lost = placesDuring(floor, () => raiseQuestion(floor, pen, { text: 'Is the stapes mobile?' }))
    const [draft] = draftsOf(floor, lost, origin)
    expect(draft).toMatchObject({ kind: 'questions', extent: 'record', reason: 'No.' })
    expect(draftLines(draft as Draft)).toContainEqual({ field: 'text', text: 'Is the stapes mobile?' })
    expect(writeAgain(authority, pen, draft as Draft)).toBe(true)
    expect(readTable(authority, 'questions')).toMatchObject([{ text: 'Is the stapes mobile?', state: 'raised' }])
  })

  test('written again now, it does not say what was seen then; written as it was, it says all that it said', () => {
    const page = new Y.Doc()
    const late: Pen = { ...pen, now: () => new Date('2026-03-02T09:00:00Z'), videoDelayMs: () => 4000 }
    const lost = placesDuring(page, () => {
      raiseQuestion(page, late, { text: 'Is the stapes mobile?' })
    })
    const draft = draftsOf(page, lost, origin)[0] as Draft
    const [again, asItWas] = [new Y.Doc(), new Y.Doc()]
    expect([writeAgain(again, pen, draft), writeAsItWas(asItWas, draft)]).toEqual([true, true])
    expect(readTable(again, 'questions')[0]).not.toHaveProperty('pictureAt')
    expect(readTable(again, 'questions')[0]?.at).toBe('2026-03-02T10:00:00.000Z')
    expect(readTable(asItWas, 'questions')).toEqual(readTable(page, 'questions'))
    expect(writeAsItWas(asItWas, draft)).toBe(false)
  })

  test('what came in one update with what was at fault is told apart by the record that the refusal names', () => {
    const page = new Y.Doc()
    const lost = placesDuring(page, () => {
      const id = raiseQuestion(page, pen, { text: 'One?' })
      reply(page, pen, id, 'Two.')
    })
    const drafts = draftsOf(page, lost, origin)
    const blamed = refusal('missing-reference', `replies/${drafts[1]?.record}`, { field: 'question', id: 'gone' })
    expect(drafts.map((draft) => isBlamed(draft, blamed))).toEqual([false, true])
  })

  test('of a changed record only the changed fields are kept, so that others do not lose theirs', () => {
    const authority = new Y.Doc()
    const id = enterTest(authority, pen, newTest, 'repeat')
    const page = copyOf(authority)
    const lost = placesDuring(page, () => {
      setPoint(page, id, 'air.masked.1000', undefined)
      setPoint(page, id, 'air.masked.500', { kind: 'could-not-test' })
    })
    changeRecord(authority, 'tests', id, { note: 'written by somebody else' })
    const [draft, ...more] = draftsOf(page, lost, origin)
    expect(more).toEqual([])
    expect(draft?.fields).toEqual({ points: { 'air.masked.1000': null, 'air.masked.500': { kind: 'could-not-test' } } })
    expect(writeAgain(authority, pen, draft as Draft)).toBe(true)
    expect(readRecord(authority, 'tests', id)).toMatchObject({
      note: 'written by somebody else',
      points: { 'air.masked.500': { kind: 'could-not-test' } },
    })
  })

  test('a signature is renewed when its draft is written again', () => {
    const authority = new Y.Doc()
    const id = enterTest(authority, pen, newTest, 'repeat')
    const page = copyOf(authority)
    const lost = placesDuring(page, () =>
      changeRecord(page, 'tests', id, { verification: { by: 'p-other', at: '2026-01-01T00:00:00.000Z' } }),
    )
    writeAgain(authority, pen, draftsOf(page, lost, origin)[0] as Draft)
    expect(readRecord(authority, 'tests', id)?.verification).toEqual({
      by: 'p-team',
      at: '2026-03-02T10:00:00.000Z',
    })
  })

  test('the record that there is one of keeps its other fields', () => {
    const authority = new Y.Doc()
    const header = { pseudonym: 'Heron', ear: 'right', sex: 'male', summary: '', phase: 'planning' } as const
    writeSingle(authority, pen, 'header', header)
    const page = copyOf(authority)
    const lost = placesDuring(page, () => writeSingle(page, pen, 'header', { ...header, phase: 'closed' }))
    writeSingle(authority, pen, 'header', { ...header, summary: 'open cavity' })
    writeAgain(authority, pen, draftsOf(page, lost, origin)[0] as Draft)
    expect(readRecord(authority, 'header', 'only')).toMatchObject({ summary: 'open cavity', phase: 'closed' })
  })

  test('shared text that changed can be copied but not written over what others write', () => {
    const authority = new Y.Doc()
    const id = startNote(authority, pen, 'finding', [{ type: 'paragraph', content: [{ text: 'Dry cavity' }] }])
    const page = copyOf(authority)
    const lost = placesDuring(page, () => {
      const note = page.getMap('notes').get(id) as Y.Map<unknown>
      note.set('body', fragmentOf([{ type: 'paragraph', content: [{ text: 'Wet cavity' }] }]))
    })
    const [draft] = draftsOf(page, lost, origin)
    expect(draftLines(draft as Draft)).toEqual([{ field: 'body', text: 'Wet cavity' }])
    expect(writeAgain(authority, pen, draft as Draft)).toBe(false)
  })

  test('a change to a record that is gone has no place to go', () => {
    const authority = new Y.Doc()
    const question = raiseQuestion(authority, pen, { text: 'How long?' })
    const id = reply(authority, pen, question, 'An hour')
    const page = copyOf(authority)
    const lost = placesDuring(page, () => changeRecord(page, 'replies', id, { text: 'Two hours' }))
    authority.getMap('replies').delete(id)
    expect(writeAgain(authority, pen, draftsOf(page, lost, origin)[0] as Draft)).toBe(false)
  })

  test('drafts are bounded in number and in size, the newest kept', () => {
    const draft = (id: number, text = 'x'): Draft => ({
      id: String(id),
      at: origin.at,
      kind: 'replies',
      record: `r${id}`,
      extent: 'record',
      fields: { text },
      reason: '',
    })
    const many = boundedDrafts(Array.from({ length: mostDrafts + 5 }, (_, index) => draft(index)))
    expect(many).toHaveLength(mostDrafts)
    expect(many[0]?.id).toBe('5')
    const large = boundedDrafts([draft(1, 'x'.repeat(400_000)), draft(2, 'x'.repeat(400_000))])
    expect(large.map(({ id }) => id)).toEqual(['2'])
  })

  test('drafts come back from what the browser kept; a damaged text counts as none', () => {
    const floor = new Y.Doc()
    const lost = placesDuring(floor, () => raiseQuestion(floor, pen, { text: 'Why?' }))
    const drafts = draftsOf(floor, lost, origin)
    expect(readDrafts(JSON.stringify(drafts))).toEqual(drafts)
    expect(readDrafts('[{"id":1}]')).toEqual([])
    expect(readDrafts(null)).toEqual([])
  })
})
