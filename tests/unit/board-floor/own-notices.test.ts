import { expect, test } from 'vitest'
import { noticesFor, openOwn } from '../../../app/board/floor/own-notices.ts'
import type { Question, QuestionState } from '../../../lib/board/records/question.ts'

const question = (id: string, state: QuestionState, author: string, foldedInto?: string): Question => ({
  id,
  author,
  at: '2026-05-04T09:00:00.000Z',
  text: `question ${id}`,
  rank: 'a0',
  state,
  ...(foldedInto === undefined ? {} : { foldedInto }),
})
const mine = new Set(['me'])
const heard = (questions: Question[], witnessed: string[]) =>
  noticesFor(questions, mine, new Set(witnessed)).map(({ id, state, text }) => [id, state, text])

test('one hears that an own question is called, and nothing of the questions of others', () => {
  expect(heard([question('a', 'called', 'me'), question('b', 'called', 'other')], [])).toEqual([
    ['a', 'called', 'question a'],
  ])
})

test('an answer is news only to a page that has seen the question open', () => {
  const answered = [question('a', 'answered', 'me')]
  expect(heard(answered, [])).toEqual([])
  expect(heard(answered, openOwn([question('a', 'raised', 'me')], mine))).toEqual([['a', 'answered', 'question a']])
})

test('a folded question follows the one that stands for it', () => {
  const standing = question('b', 'called', 'other')
  expect(heard([question('a', 'raised', 'me', 'b'), standing], [])).toEqual([['b', 'called', 'question a']])
})

test('called a second time is news a second time', () => {
  const key = (movedAt: string) => noticesFor([{ ...question('a', 'called', 'me'), movedAt }], mine, new Set())[0]?.key
  expect(key('2026-05-04T09:00:00.000Z')).not.toBe(key('2026-05-04T09:05:00.000Z'))
})

test('one hears to which question an own one was joined while the page looked on, and not again after a reload', () => {
  const joined = [question('a', 'raised', 'me', 'b'), question('b', 'raised', 'other')]
  expect(heard(joined, openOwn([question('a', 'raised', 'me')], mine))).toEqual([['b', 'joined', 'question b']])
  expect(heard(joined, openOwn(joined, mine))).toEqual([])
})

test('a question without a name is its asker’s as any other', () => {
  const own = new Set(['me', 'unnamed-1'])
  expect(noticesFor([question('a', 'called', 'unnamed-1')], own, new Set()).map(({ state }) => state)).toEqual([
    'called',
  ])
})
