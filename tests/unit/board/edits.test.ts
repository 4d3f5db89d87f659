import { describe, expect, it } from 'vitest'
import * as Y from 'yjs'
import { addContingency, addStep, moveStep, showOnMainScreen, startNote } from '../../../lib/board/edits/decisions.ts'
import {
  callQuestion,
  foldQuestion,
  raiseQuestion,
  readThreads,
  reply,
  shiftQuestion,
  toggleBacking,
} from '../../../lib/board/edits/floor.ts'
import { enterTest, reinstateTest, setPoint } from '../../../lib/board/edits/hearing.ts'
import { type Pen, rankBetween } from '../../../lib/board/edits/writing.ts'
import { readRecord, readTable } from '../../../lib/board/reading.ts'
import { paragraphs, plainText } from '../../../lib/board/rich-text.ts'
import { tableReading } from '../../../lib/board/table-reading.ts'

function penOf(participant: string): Pen {
  let made = 0
  return { participant, now: () => new Date('2026-05-04T10:00:00.000Z'), newId: () => `${participant}-${++made}` }
}
const freshTest = {
  ear: 'right',
  condition: 'unaided',
  performedOn: '2026-05-02',
  origin: 'typed',
  note: '',
  points: {},
} as const

describe('hearing tests', () => {
  it('a new test supersedes the current one of its ear and condition in the same edit', () => {
    const doc = new Y.Doc()
    let edits = 0
    const pen = penOf('p')
    const first = enterTest(doc, pen, freshTest, '')
    doc.on('update', () => edits++)
    const second = enterTest(doc, pen, freshTest, 'newer')
    const other = enterTest(doc, pen, { ...freshTest, ear: 'left' }, 'newer')
    expect(edits).toBe(2)
    expect(readRecord(doc, 'tests', first)).toMatchObject({
      state: 'superseded',
      closing: { reason: 'newer', supersededBy: second },
    })
    expect([second, other].map((id) => readRecord(doc, 'tests', id)?.state)).toEqual(['current', 'current'])
  })

  it('reinstating a superseded test supersedes the current one', () => {
    const doc = new Y.Doc()
    const pen = penOf('p')
    const first = enterTest(doc, pen, freshTest, '')
    const second = enterTest(doc, pen, freshTest, 'newer')
    reinstateTest(doc, pen, readRecord(doc, 'tests', first) as never, 'the newer one was of the other day')
    expect(readRecord(doc, 'tests', first)?.closing).toBeUndefined()
    expect(readRecord(doc, 'tests', second)).toMatchObject({ state: 'superseded', closing: { supersededBy: first } })
  })

  it('two people who set different points at once both keep theirs', () => {
    const one = new Y.Doc()
    const test = enterTest(one, penOf('p'), freshTest, '')
    const two = new Y.Doc()
    Y.applyUpdate(two, Y.encodeStateAsUpdate(one))
    setPoint(one, test, 'air.unmasked.1000', { kind: 'heard', level: 40 as never })
    setPoint(two, test, 'bone.masked.1000', { kind: 'no-response', limit: 70 as never })
    Y.applyUpdate(one, Y.encodeStateAsUpdate(two))
    expect(Object.keys(readRecord(one, 'tests', test)?.points ?? {}).sort()).toEqual([
      'air.unmasked.1000',
      'bone.masked.1000',
    ])
  })
})

describe('the floor', () => {
  function floorOf(count: number) {
    const doc = new Y.Doc()
    const pen = penOf('p')
    const ids = Array.from({ length: count }, (_, n) => raiseQuestion(doc, pen, { text: `Question ${n}` }))
    return { doc, pen, ids }
  }
  const order = (doc: Y.Doc) => readThreads(doc).map(({ question }) => question.id)

  it('keeps the order in which questions were raised, and moves one up', () => {
    const { doc, ids } = floorOf(3)
    expect(order(doc)).toEqual(ids)
    shiftQuestion(doc, ids[2] as string, -1)
    expect(order(doc)).toEqual([ids[0], ids[2], ids[1]])
    shiftQuestion(doc, ids[0] as string, -1)
    expect(order(doc)).toEqual([ids[0], ids[2], ids[1]])
  })

  it('calling one question puts the one called before back among the raised', () => {
    const { doc, pen, ids } = floorOf(2)
    callQuestion(doc, pen, ids[0] as string)
    callQuestion(doc, pen, ids[1] as string)
    expect(readThreads(doc).map(({ question }) => question.state)).toEqual(['raised', 'called'])
  })

  it('a folded question stands inside the other, and a person counts once who backs both', () => {
    const { doc, pen, ids } = floorOf(2)
    const backer = penOf('q')
    for (const id of ids) toggleBacking(doc, backer, id)
    reply(doc, backer, ids[1] as string, 'so do I')
    foldQuestion(doc, pen, ids[1] as string, ids[0] as string)
    expect(readThreads(doc)).toMatchObject([
      { question: { id: ids[0] }, folded: [{ id: ids[1] }], backers: ['q'], replies: [{ text: 'so do I' }] },
    ])
    expect(readThreads(doc)[0]?.folded[0]?.movedBy).toBe(pen.participant)
    toggleBacking(doc, backer, ids[0] as string)
    toggleBacking(doc, backer, ids[1] as string)
    expect(readThreads(doc)[0]?.backers).toEqual([])
  })

  it('a rank between equal neighbours, made by two people at once, still comes after the first', () => {
    expect(rankBetween('a1', 'a1') > 'a1').toBe(true)
    expect(rankBetween(undefined, 'a1') < 'a1').toBe(true)
  })
})

describe('decisions', () => {
  it('a step notes when it began and ended, and forgets both when it is ahead again', () => {
    const doc = new Y.Doc()
    const pen = penOf('p')
    const id = addStep(doc, pen, { title: 'Expose', check: '', hazard: '' })
    const step = () => readRecord(doc, 'steps', id) as NonNullable<ReturnType<typeof readRecord<'steps'>>>
    moveStep(doc, pen, step(), 'under-way')
    moveStep(doc, pen, step(), 'done')
    expect(step()).toMatchObject({
      state: 'done',
      startedAt: '2026-05-04T10:00:00.000Z',
      endedAt: '2026-05-04T10:00:00.000Z',
    })
    moveStep(doc, pen, step(), 'ahead')
    expect([step().startedAt, step().endedAt]).toEqual([undefined, undefined])
  })

  it('the main screen holds one thing, by its last editor', () => {
    const doc = new Y.Doc()
    showOnMainScreen(doc, penOf('p'), { kind: 'audiogram', ear: 'right' })
    showOnMainScreen(doc, penOf('q'), { kind: 'steps' })
    expect(readTable(doc, 'mainScreen')).toMatchObject([{ author: 'q', showing: { kind: 'steps' } }])
  })

  it('a note keeps its words', () => {
    const doc = new Y.Doc()
    const id = startNote(doc, penOf('p'), 'finding', paragraphs('stapes mobile\n\nround window free'))
    expect(plainText(readRecord(doc, 'notes', id)?.body ?? [])).toBe('stapes mobile\n\nround window free')
  })
})

describe('a reading', () => {
  it('keeps its snapshot while what it reads is the same, and misses nothing before it is subscribed', () => {
    const doc = new Y.Doc()
    const pen = penOf('p')
    const reading = tableReading(doc, 'contingencies')
    const empty = reading.getSnapshot()
    addContingency(doc, pen, { kind: 'found', finding: 'fixed' }, 'stage')
    let notified = 0
    const unsubscribe = reading.subscribe(() => notified++)
    expect(reading.getSnapshot()).toMatchObject([{ plan: 'stage' }])
    const one = reading.getSnapshot()
    addStep(doc, pen, { title: 'elsewhere', check: '', hazard: '' })
    expect(reading.getSnapshot()).toBe(one)
    addContingency(doc, pen, { kind: 'found', finding: 'leak' }, 'seal')
    expect([empty, notified, reading.getSnapshot().length]).toEqual([[], 1, 2])
    unsubscribe()
  })
})
