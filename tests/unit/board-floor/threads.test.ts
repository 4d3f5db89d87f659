import { expect, test } from 'vitest'
import * as Y from 'yjs'
import {
  answerQuestion,
  callQuestion,
  foldQuestion,
  raiseQuestion,
  readThreads,
  reply,
  rewordQuestion,
  shiftQuestion,
  type Thread,
  toggleBacking,
  toggleThreadBacking,
  unfoldQuestion,
  writeAnswer,
} from '../../../lib/board/edits/floor.ts'
import type { Pen } from '../../../lib/board/edits/writing.ts'

let made = 0
const penOf = (participant: string): Pen => ({
  participant,
  now: () => new Date(Date.UTC(2026, 4, 4, 9, 0, made)),
  newId: () => `r-${++made}`,
})
const moderator = penOf('moderator')
const anna = penOf('anna')
const bo = penOf('bo')

function floorOf(...texts: string[]) {
  const doc = new Y.Doc()
  const ids = texts.map((text) => raiseQuestion(doc, anna, { text }))
  return { doc, ids: ids as [string, ...string[]] }
}
const texts = (doc: Y.Doc) => readThreads(doc).map(({ question }) => question.text)

test('a folded question stands inside the one that stands for it, with its replies and its backers once each', () => {
  const { doc, ids } = floorOf('coupling at 4 kHz?', 'what about 4 kHz?')
  const [kept, folded] = ids as [string, string]
  toggleBacking(doc, bo, kept)
  toggleBacking(doc, bo, folded)
  reply(doc, bo, folded, 'same here')
  reply(doc, anna, kept, 'thank you')
  foldQuestion(doc, moderator, folded, kept)
  const threads = readThreads(doc)
  expect(threads.map(({ question }) => question.id)).toEqual([kept])
  expect(threads[0]?.folded.map(({ id }) => id)).toEqual([folded])
  expect(threads[0]?.replies.map(({ text }) => text)).toEqual(['same here', 'thank you'])
  expect(threads[0]?.backers).toEqual(['bo'])
  unfoldQuestion(doc, moderator, folded)
  expect(texts(doc)).toEqual(['coupling at 4 kHz?', 'what about 4 kHz?'])
})

test('shifting moves a question one place within its state and stops at the ends', () => {
  const { doc, ids } = floorOf('one', 'two', 'three')
  shiftQuestion(doc, ids[2] as string, -1)
  expect(texts(doc)).toEqual(['one', 'three', 'two'])
  shiftQuestion(doc, ids[0], -1)
  expect(texts(doc)).toEqual(['one', 'three', 'two'])
  shiftQuestion(doc, ids[0], 1)
  expect(texts(doc)).toEqual(['three', 'one', 'two'])
})

test('calling a question puts the one called before it back among the raised', () => {
  const { doc, ids } = floorOf('one', 'two')
  callQuestion(doc, moderator, ids[0])
  callQuestion(doc, moderator, ids[1] as string)
  expect(readThreads(doc).map(({ question }) => question.state)).toEqual(['raised', 'called'])
})

test('the team writes an answer without moving the question; the moderator closes it with one', () => {
  const { doc, ids } = floorOf('one')
  writeAnswer(doc, penOf('scribe'), ids[0], { text: 'about 10 dB', saidBy: 'the surgeon' })
  expect(readThreads(doc)[0]?.question).toMatchObject({
    state: 'raised',
    answer: { text: 'about 10 dB', by: 'scribe', saidBy: 'the surgeon' },
  })
  answerQuestion(doc, moderator, ids[0], { text: 'about 10 dB' })
  const question = readThreads(doc)[0]?.question
  expect(question?.state).toBe('answered')
  expect(question?.answer).not.toHaveProperty('saidBy')
})

test('rewording keeps the question and takes the anchor away when there is none', () => {
  const { doc, ids } = floorOf('one')
  const anchor = { kind: 'chart', place: { kind: 'band', ear: 'left', from: 2000, to: 4000 } } as const
  rewordQuestion(doc, ids[0], { text: 'one, at 2 to 4 kHz', anchor })
  expect(readThreads(doc)[0]?.question).toMatchObject({ text: 'one, at 2 to 4 kHz', anchor })
  rewordQuestion(doc, ids[0], { text: 'one' })
  expect(readThreads(doc)[0]?.question).not.toHaveProperty('anchor')
})

test('taking back the support of a thread takes it back from what is folded into it too', () => {
  const { doc, ids } = floorOf('one', 'two')
  const [kept, folded] = ids as [string, string]
  toggleBacking(doc, bo, folded)
  foldQuestion(doc, moderator, folded, kept)
  const thread = () => readThreads(doc)[0] as Thread
  expect(thread().backers).toEqual(['bo'])
  toggleThreadBacking(doc, bo, thread())
  expect(thread().backers).toEqual([])
  toggleThreadBacking(doc, bo, thread())
  expect(thread().backers).toEqual(['bo'])
})
