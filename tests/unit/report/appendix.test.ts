import { expect, it } from 'vitest'
import type { Note } from '../../../lib/board/records/note.ts'
import type { Question } from '../../../lib/board/records/question.ts'
import type { Vote } from '../../../lib/board/records/vote.ts'
import { reportAppendix } from '../../../lib/report/appendix.ts'
import { heldVisit, visitItem } from '../../fixtures/visits.ts'

const stamp = { author: 'p-1', at: '2026-03-10T09:00:00.000Z' }
const signed = { by: 'p-1', at: '2026-03-10T10:00:00.000Z' }
const note = (id: string, parts: Partial<Note> = {}): Note => ({
  ...stamp,
  id,
  rank: id,
  kind: 'decision',
  cites: [],
  body: [],
  ...parts,
})
const vote = (id: string, parts: Partial<Vote> = {}): Vote => ({
  ...stamp,
  id,
  question: id,
  options: ['a', 'b'],
  asksConfidence: false,
  ...parts,
})
const result = { ...signed, options: [{ votes: 3 }, { votes: 1 }], notVoted: 2 }
const question = (id: string, parts: Partial<Question> = {}): Question => ({
  ...stamp,
  id,
  text: id,
  rank: id,
  state: 'answered',
  ...parts,
})

const appendix = reportAppendix({
  notes: [
    note('b'),
    note('a'),
    note('struck', { struck: { ...signed, reason: 'wrong' } }),
    note('seen', { kind: 'finding' }),
  ],
  votes: [
    vote('closed', { note: 'a', result }),
    vote('open', { note: 'a' }),
    vote('of-struck', { note: 'struck', result }),
  ],
  questions: [
    question('q-1', { answer: { ...signed, text: 'yes', saidBy: 'Surgeon' } }),
    question('q-2', { state: 'deferred', deferredTo: 'six months' }),
    question('q-3', { state: 'deferred' }),
    question('q-4', { state: 'answered', foldedInto: 'q-1' }),
    question('q-5', { state: 'raised' }),
  ],
  visitItems: [
    visitItem('i-1', 'v-1', { question: 'q-2' }),
    visitItem('i-2', 'v-1', { question: 'q-3', state: 'dropped' }),
  ],
  visits: [heldVisit('v-1', '2026-06-10')],
})

it('lists decisions that stand, each with its closed votes, and keeps the votes of what was struck', () => {
  expect(appendix.decisions.map(({ note: { id }, votes }) => [id, votes.map((of) => of.id)])).toEqual([
    ['a', ['closed']],
    ['b', []],
  ])
  expect(appendix.otherVotes.map(({ id }) => id)).toEqual(['of-struck'])
})

it('lists answered questions once, and deferred ones with the visit that took them up', () => {
  expect(appendix.answered.map(({ id }) => id)).toEqual(['q-1'])
  expect(appendix.deferred.map(({ question: { id }, visit }) => [id, visit?.id])).toEqual([
    ['q-2', 'v-1'],
    ['q-3', undefined],
  ])
})
