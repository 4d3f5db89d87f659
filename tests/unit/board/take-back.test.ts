import { describe, expect, it } from 'vitest'
import * as Y from 'yjs'
import { startNote } from '../../../lib/board/edits/decisions.ts'
import {
  answerQuestion,
  callQuestion,
  deferQuestion,
  foldQuestion,
  moveQuestion,
  raiseQuestion,
  toggleTheme,
} from '../../../lib/board/edits/floor.ts'
import { type Deed, rememberEdit, takeBack } from '../../../lib/board/edits/take-back.ts'
import { bringNext, dropFromQueue, queueForScreen, shiftInQueue } from '../../../lib/board/edits/up-next.ts'
import type { Pen } from '../../../lib/board/edits/writing.ts'
import { readRecord, readTable } from '../../../lib/board/reading.ts'
import type { QuestionState } from '../../../lib/board/records/question.ts'
import type { DocumentKind, KindName } from '../../../lib/board/records.ts'
import { paragraphs } from '../../../lib/board/rich-text.ts'
import { Proposal } from '../../../server/guard/proposal.ts'

let ids = 0
const penOf = (participant: string): Pen => ({ participant, now: () => new Date(), newId: () => `id-${++ids}` })
const pen = penOf('mod')

/** A document whose every further edit passes through the guard as the moderator's. */
function guarded(kind: DocumentKind, seed: (doc: Y.Doc) => void) {
  const doc = new Y.Doc()
  seed(doc)
  const proposal = new Proposal(kind, [Y.encodeStateAsUpdate(doc)])
  const refused: unknown[] = []
  const owners = new Map([[doc.clientID, 'mod']])
  doc.on('update', (update: Uint8Array) => {
    const verdict = proposal.check(update, { participant: 'mod', role: 'moderator' }, owners, Date.now())
    if (!verdict.ok) refused.push(verdict.refused)
  })
  return { doc, refused }
}

/** What a document says, without who touched it last and when. */
const saying = (doc: Y.Doc, kinds: readonly KindName[]) =>
  kinds.map((kind) =>
    readTable(doc, kind)
      .map((record) => {
        const {
          author: _author,
          at: _at,
          movedAt: _movedAt,
          movedBy: _movedBy,
          ...rest
        } = { ...record } as Record<string, unknown>
        return rest
      })
      .sort((a, b) => String(a.id).localeCompare(String(b.id))),
  )

const put = (doc: Y.Doc, text: string, state: QuestionState = 'raised'): string => {
  const id = raiseQuestion(doc, penOf('asker'), { text })
  if (state !== 'raised') moveQuestion(doc, pen, id, state)
  return id
}

type Act = (doc: Y.Doc, one: string, other: string) => void
const floorActs: readonly (readonly [string, QuestionState, Act])[] = [
  ['calling', 'raised', (doc, one) => callQuestion(doc, pen, one)],
  [
    'calling in place of another',
    'raised',
    (doc, one, other) => {
      callQuestion(doc, pen, one)
      callQuestion(doc, pen, other)
    },
  ],
  ['answering', 'called', (doc, one) => answerQuestion(doc, pen, one, { text: 'Yes.', saidBy: 'the surgeon' })],
  ['answering what was deferred', 'deferred', (doc, one) => answerQuestion(doc, pen, one, { text: 'Yes.' })],
  ['deferring', 'called', (doc, one) => deferQuestion(doc, pen, one, 'first fitting')],
  ['setting aside', 'raised', (doc, one) => moveQuestion(doc, pen, one, 'set-aside')],
  ['setting the called one aside', 'called', (doc, one) => moveQuestion(doc, pen, one, 'set-aside')],
  ['setting aside what was deferred', 'deferred', (doc, one) => moveQuestion(doc, pen, one, 'set-aside')],
  ['raising again what was answered', 'answered', (doc, one) => moveQuestion(doc, pen, one, 'raised')],
  ['raising again what was deferred', 'deferred', (doc, one) => moveQuestion(doc, pen, one, 'raised')],
  ['raising again what was set aside', 'set-aside', (doc, one) => moveQuestion(doc, pen, one, 'raised')],
  ['joining', 'raised', (doc, one, other) => foldQuestion(doc, pen, one, other)],
  ['joining the called one', 'called', (doc, one, other) => foldQuestion(doc, pen, one, other)],
  ['a theme', 'raised', (doc, one) => toggleTheme(doc, one, 'round window')],
]

describe('an act on the floor is taken back to where it was, through the guard', () => {
  it.each(floorActs)('%s', (_, state, act) => {
    let one = ''
    let other = ''
    const { doc, refused } = guarded('floor', (seeded) => {
      one = put(seeded, 'Is the footplate mobile?', state)
      other = put(seeded, 'Does the footplate move?')
    })
    const before = saying(doc, ['questions'])
    const deed = rememberEdit(doc, ['questions'], () => act(doc, one, other))
    expect(saying(doc, ['questions'])).not.toEqual(before)
    expect(takeBack(pen, deed, 'slip')).toBe(true)
    expect(saying(doc, ['questions'])).toEqual(before)
    expect(refused).toEqual([])
  })
})

describe('an act on the main screen is taken back to where it was, through the guard', () => {
  const withQueue = () =>
    guarded('record', (doc) => {
      queueForScreen(doc, pen, { kind: 'forecast' })
      queueForScreen(doc, pen, { kind: 'options' })
    })
  const first = (doc: Y.Doc): string =>
    readTable(doc, 'upNext').find(({ showing }) => showing.kind === 'forecast')?.id ?? ''
  const acts: readonly (readonly [string, (doc: Y.Doc) => void])[] = [
    ['queueing', (doc) => void queueForScreen(doc, pen, { kind: 'steps' })],
    ['dropping', (doc) => dropFromQueue(doc, first(doc))],
    ['ordering', (doc) => shiftInQueue(doc, first(doc), 1)],
  ]
  it.each(acts)('%s', (_, act) => {
    const { doc, refused } = withQueue()
    const before = saying(doc, ['upNext'])
    const deed = rememberEdit(doc, ['upNext'], () => act(doc))
    expect(saying(doc, ['upNext'])).not.toEqual(before)
    expect(takeBack(pen, deed, 'slip')).toBe(true)
    expect(saying(doc, ['upNext'])).toEqual(before)
    expect(refused).toEqual([])
  })

  it('bringing the next: the queue stands again, and the screen shows what it showed', () => {
    const { doc, refused } = withQueue()
    bringNext(doc, pen)
    const before = saying(doc, ['upNext', 'mainScreen'])
    const deed = rememberEdit(doc, ['upNext', 'mainScreen'], () => bringNext(doc, pen))
    expect(readRecord(doc, 'mainScreen', 'only')?.showing).toEqual({ kind: 'options' })
    expect(takeBack(pen, deed, 'slip')).toBe(true)
    expect(saying(doc, ['upNext', 'mainScreen'])).toEqual(before)
    expect(refused).toEqual([])
  })

  it('a line of the record, which nobody can remove, is struck out', () => {
    const { doc, refused } = guarded('record', () => undefined)
    const deed = rememberEdit(doc, ['notes'], () => startNote(doc, pen, 'finding', paragraphs('footplate mobile')))
    expect(takeBack(pen, deed, 'taken back at once')).toBe(true)
    expect(readTable(doc, 'notes')[0]?.struck?.reason).toBe('taken back at once')
    expect(refused).toEqual([])
  })
})

it('nothing is taken back once somebody else has changed a part of it', () => {
  const doc = new Y.Doc()
  const id = put(doc, 'Is the footplate mobile?')
  const deed: Deed = rememberEdit(doc, ['questions'], () => moveQuestion(doc, pen, id, 'set-aside'))
  moveQuestion(doc, penOf('co-moderator'), id, 'raised')
  expect(takeBack(pen, deed, 'slip')).toBe(false)
  expect(readRecord(doc, 'questions', id)).toMatchObject({ state: 'raised', movedBy: 'co-moderator' })
})
