import { expect, test } from 'vitest'
import { questionActs, questionKeys, questionRights } from '../../../app/board/floor/question-rights.ts'
import type { Thread } from '../../../lib/board/edits/floor.ts'
import type { Question, QuestionState } from '../../../lib/board/records/question.ts'
import { rightsOf } from '../../../lib/board/rights.ts'
import { Role } from '../../../lib/board/roles.ts'

const question = (state: QuestionState): Question => ({
  id: 'q1',
  author: 'anna',
  at: '2026-05-04T09:00:00.000Z',
  text: 'What do we lose at 6 kHz?',
  rank: 'a0',
  state,
})
const thread = (state: QuestionState, folded: Question[] = []): Thread => ({
  question: question(state),
  folded,
  replies: [],
  backers: [],
})
const allowed = (role: Role, participant: string, of: Thread) =>
  Object.entries(questionRights(of, rightsOf({ role, participant }), participant))
    .filter(([, allowed]) => allowed)
    .map(([act]) => act)
    .sort()

test('an observer reads only', () => {
  for (const state of ['raised', 'called', 'answered', 'deferred', 'set-aside'] as const)
    expect(allowed('observer', 'o', thread(state))).toEqual([])
})

test('a panel member backs and answers to the questions of others, and words their own while it waits', () => {
  expect(allowed('panel', 'bo', thread('raised'))).toEqual(['back', 'reply'])
  expect(allowed('panel', 'anna', thread('raised'))).toEqual(['reply', 'reword', 'takeBack'])
  expect(allowed('panel', 'anna', thread('called'))).toEqual(['reply'])
})

test('the team writes an answer to an open question and leaves its state to the moderator', () => {
  expect(allowed('team', 't', thread('called'))).toEqual(['back', 'draftAnswer', 'reply'])
  expect(allowed('team', 't', thread('answered'))).toEqual(['back', 'reply'])
})

test('the moderator has every way out of each state that the table names', () => {
  expect(allowed('moderator', 'm', thread('raised'))).toEqual(
    ['answer', 'back', 'call', 'defer', 'fold', 'order', 'reply', 'setAside', 'unfold'].sort(),
  )
  expect(allowed('moderator', 'm', thread('set-aside'))).toEqual(['back', 'call', 'defer', 'reopen', 'reply', 'unfold'])
})

test('a question that others are folded into does not fold', () => {
  expect(allowed('moderator', 'm', thread('raised', [question('raised')]))).not.toContain('fold')
})

test('a question without a name is its asker’s to word and to take back, and nobody backs their own', () => {
  const unnamed = { ...thread('raised'), question: { ...question('raised'), author: 'unnamed-1' } }
  const may = rightsOf({ role: 'panel', participant: 'anna' })
  expect(questionRights(unnamed, may, 'anna', new Set(['unnamed-1']))).toMatchObject({
    reword: true,
    takeBack: true,
    back: false,
  })
  expect(questionRights(unnamed, may, 'anna')).toMatchObject({ reword: false, takeBack: false, back: true })
  expect(
    questionRights(
      { ...thread('raised'), folded: [{ ...question('raised'), author: 'bo' }] },
      rightsOf({ role: 'panel', participant: 'bo' }),
      'bo',
    ).back,
  ).toBe(false)
})

test('no key stands for two acts on the same question', () => {
  for (const role of Role.options)
    for (const state of ['raised', 'called', 'answered', 'deferred', 'set-aside'] as const)
      for (const me of ['anna', 'other']) {
        const acts = questionActs.filter((act) => act === 'screen' || allowed(role, me, thread(state)).includes(act))
        const keys = acts.map((act) => questionKeys[act])
        expect(new Set(keys).size).toBe(keys.length)
      }
})
