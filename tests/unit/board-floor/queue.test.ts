import { expect, test } from 'vitest'
import { firstShown, groupsOf, pageLength, revealing, withWords } from '../../../app/board/floor/queue.ts'
import type { Thread } from '../../../lib/board/edits/floor.ts'
import type { Question, QuestionState } from '../../../lib/board/records/question.ts'

const question = (id: string, state: QuestionState = 'raised', author = 'anna'): Question => ({
  id,
  author,
  at: '2026-05-04T09:00:00.000Z',
  text: `question ${id}`,
  rank: 'a0',
  state,
})
const thread = (id: string, state?: QuestionState, author?: string, folded: Question[] = []): Thread => ({
  question: question(id, state, author),
  folded,
  replies: [],
  backers: [],
})
const many = (count: number, state: QuestionState) =>
  Array.from({ length: count }, (_, i) => thread(`${state}${i}`, state))

test('questions stand by state, called first; closed states are shut and still counted', () => {
  const groups = groupsOf([thread('a'), thread('b', 'answered'), thread('c', 'called')], firstShown)
  expect(groups.map(({ state, count, drawn }) => [state, count, drawn.length])).toEqual([
    ['called', 1, 1],
    ['raised', 1, 1],
    ['answered', 1, 0],
    ['deferred', 0, 0],
    ['set-aside', 0, 0],
  ])
})

test('of two thousand questions one page is drawn', () => {
  const raised = groupsOf(many(2000, 'raised'), firstShown).find(({ state }) => state === 'raised')
  expect(raised).toMatchObject({ count: 2000 })
  expect(raised?.drawn).toHaveLength(pageLength)
})

test('revealing a question opens as many pages of its group as it takes, and no other group', () => {
  const threads = [
    ...many(120, 'answered'),
    thread('x', 'answered', 'anna', [question('inside')]),
    ...many(3, 'deferred'),
  ]
  expect(revealing(firstShown, threads, 'answered0')).toEqual({ ...firstShown, answered: pageLength })
  expect(revealing(firstShown, threads, 'x')).toEqual({ ...firstShown, answered: 3 * pageLength })
  expect(revealing(firstShown, threads, 'inside')).toEqual({ ...firstShown, answered: 3 * pageLength })
  expect(revealing(firstShown, threads, 'nowhere')).toBe(firstShown)
  const wide = { ...firstShown, answered: 500 }
  expect(revealing(wide, threads, 'x')).toBe(wide)
})

test('words are found in any order, in questions, answers, replies and what is folded in', () => {
  const answered = thread('a', 'answered')
  const threads: Thread[] = [
    {
      ...answered,
      question: { ...answered.question, answer: { text: 'Ten decibels', by: 'm', at: answered.question.at } },
    },
    {
      ...thread('b'),
      replies: [{ id: 'r', author: 'bo', at: '2026-05-04T09:00:00.000Z', text: 'in the round window' }],
    },
    thread('c', 'raised', 'anna', [question('folded-one')]),
  ]
  const found = (words: string) => withWords(threads, words).map(({ question: { id } }) => id)
  expect(found('  ')).toEqual(['a', 'b', 'c'])
  expect(found('decibels TEN')).toEqual(['a'])
  expect(found('window round')).toEqual(['b'])
  expect(found('folded-one')).toEqual(['c'])
  expect(found('window ten')).toEqual([])
})
