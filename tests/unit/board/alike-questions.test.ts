import { expect, it } from 'vitest'
import { alikeQuestions, pairKey } from '../../../lib/board/alike-questions.ts'
import { threadsOf } from '../../../lib/board/edits/floor.ts'
import { backingId, type Question } from '../../../lib/board/records/question.ts'

const question = (id: string, text: string, more: Partial<Question> = {}): Question => ({
  id,
  author: `asker-${id}`,
  at: `2026-05-04T10:00:0${id}.000Z`,
  text,
  state: 'raised',
  rank: `a${id}`,
  ...more,
})
const backing = (of: string, by: string) => ({
  id: backingId(of, by),
  author: by,
  at: '2026-05-04T10:01:00.000Z',
  question: of,
})
const pairsOf = (
  questions: readonly Question[],
  backings: readonly ReturnType<typeof backing>[] = [],
  apart?: Set<string>,
) =>
  alikeQuestions(threadsOf(questions, [], backings), apart).map(({ thread, into }) => [
    thread.question.id,
    into.question.id,
  ])

const twice = [question('1', 'Is the footplate mobile?'), question('2', 'Is the footplate really mobile?')]

it('offers the later of two alike questions for joining to the earlier', () => {
  expect(pairsOf([...twice, question('3', 'What about 6 kHz?')])).toEqual([['2', '1']])
})

it('lets the one with more backers stand, and the called one before all', () => {
  expect(pairsOf(twice, [backing('2', 'north')])).toEqual([['1', '2']])
  const called = [{ ...question('1', 'Is the footplate mobile?'), state: 'called' as const }, twice[1] as Question]
  expect(pairsOf(called, [backing('2', 'north')])).toEqual([['2', '1']])
})

it('leaves alone what was told apart, what is closed and what shares only small words', () => {
  expect(pairsOf(twice, [], new Set([pairKey('2', '1')]))).toEqual([])
  expect(pairsOf([twice[0] as Question, { ...(twice[1] as Question), state: 'answered' }])).toEqual([])
  expect(
    pairsOf([question('1', 'How large is the gap at 4 kHz?'), question('2', 'How is the canal wall to be rebuilt?')]),
  ).toEqual([])
})

it('folds each question in one pair at most, and none into one that is to be folded', () => {
  const three = [...twice, question('3', 'Is the footplate mobile now?')]
  expect(pairsOf(three)).toEqual([
    ['2', '1'],
    ['3', '1'],
  ])
})
