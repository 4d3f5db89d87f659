import { describe, expect, it } from 'vitest'
import { screenContent, screenKey } from '../../../app/screen/screen-content.ts'
import type { Thread } from '../../../lib/board/edits/floor.ts'
import type { Showing } from '../../../lib/board/records/main-screen.ts'
import { Picture } from '../../../lib/board/records/picture.ts'
import { ForecastRecord, ScenarioRecord } from '../../../lib/board/records/sealed-record.ts'
import { Vote } from '../../../lib/board/records/vote.ts'
import { contingency, note, question, step } from '../../fixtures/board-records.ts'
import { hearingTest, points } from '../../fixtures/hearing-tests.ts'
import { frozenContent, sealedContent, sealedOption } from '../../fixtures/sealing-records.ts'
import { sampleRecord } from '../../support/sample-records.ts'

const closing = { by: 'p-2', at: '2026-03-04T10:00:00.000Z', reason: 'retested' }
const aided = { condition: 'aided', points: points({ 'aided.unmasked.500': 30 }) } as const
const rightNow = hearingTest({ id: 'right-now' })
const rightAided = hearingTest({ id: 'right-aided', ...aided })
const rightOld = hearingTest({ id: 'right-old', state: 'superseded', closing })
const leftNow = hearingTest({ id: 'left-now', ear: 'left' })
const asThread = (of: Thread['question'], folded: Thread['folded'] = []): Thread => ({
  question: of,
  folded,
  replies: [],
  backers: [],
})
const stamp = { author: 'p-1', at: '2026-03-02T09:00:00.000Z' }
const scenario = (id: string, parts: object = {}) =>
  ScenarioRecord.parse({ ...stamp, id, ...frozenContent(), ...parts })
const sealed = (id: string, parts: object = {}) => ForecastRecord.parse({ ...stamp, id, ...sealedContent(), ...parts })
const records = {
  tests: [rightAided, rightOld, leftNow, rightNow],
  notes: [note('n-1')],
  contingencies: [contingency('c-1')],
  steps: [step('s-2', { rank: 'a1' }), step('s-1', { rank: 'a0' })],
  threads: [asThread(question('q-1'), [question('q-2')])],
  votes: [Vote.parse(sampleRecord('votes', 'v-1', 'p-1'))],
  pictures: [Picture.parse(sampleRecord('pictures', 'p-1', 'p-1'))],
  scenarios: [scenario('w-1'), scenario('w-2', { supersedes: 'w-1' })],
  forecasts: [sealed('f-1'), sealed('f-2', { follows: 'f-1', scenario: 'w-2' })],
}
const shown = (showing: Showing) => screenContent({ ...records, showing })
/** Ids of the tests on the screen, ear by ear. */
function testsShown(showing: Showing) {
  const content = shown(showing)
  if (content.kind !== 'audiogram') throw new TypeError(`an audiogram was expected, not ${content.kind}`)
  return content.ears.map(({ ear, tests }) => [ear, ...tests.map(({ id }) => id)])
}

describe('what is on the main screen', () => {
  it('is the current tests of an ear, earphones first, when no test was chosen', () => {
    expect(testsShown({ kind: 'audiogram', ear: 'right' })).toEqual([['right', 'right-now', 'right-aided']])
  })

  it('is the right ear before the left one, as if facing the patient', () => {
    expect(testsShown({ kind: 'audiogram', ear: 'both' })).toEqual([
      ['right', 'right-now', 'right-aided'],
      ['left', 'left-now'],
    ])
  })

  it('is the chosen test alone, also when it is no longer current', () => {
    expect(testsShown({ kind: 'audiogram', ear: 'right', test: 'right-old' })).toEqual([['right', 'right-old']])
  })

  it('shows a chosen test on its own ear, whatever ear was named', () => {
    expect(testsShown({ kind: 'audiogram', ear: 'left', test: 'right-old' })).toEqual([['right', 'right-old']])
  })

  it('is an empty panel for an ear that was never tested', () => {
    const content = screenContent({ ...records, tests: [], showing: { kind: 'audiogram', ear: 'left' } })
    expect(content).toEqual({ kind: 'audiogram', ears: [{ ear: 'left', tests: [] }] })
  })

  it.each<Showing>([
    { kind: 'audiogram', ear: 'right', test: 'nowhere' },
    { kind: 'question', id: 'nowhere' },
    { kind: 'note', id: 'nowhere' },
    { kind: 'contingency', id: 'nowhere' },
    { kind: 'scenario', id: 'nowhere' },
    { kind: 'sealed-forecast', id: 'nowhere' },
  ])('is gone when the record is not there: %j', (showing) => {
    expect(shown(showing)).toEqual({ kind: 'gone' })
  })

  it('says of a scenario and of a sealed forecast whether another took its place', () => {
    expect(shown({ kind: 'scenario', id: 'w-1' })).toMatchObject({ superseded: true })
    expect(shown({ kind: 'scenario', id: 'w-2' })).toMatchObject({ superseded: false, scenario: { id: 'w-2' } })
    expect(shown({ kind: 'sealed-forecast', id: 'f-1' })).toMatchObject({ followed: true, scenario: undefined })
    expect(shown({ kind: 'sealed-forecast', id: 'f-2' })).toMatchObject({ followed: false, scenario: { id: 'w-2' } })
  })

  it('brings the scenario or the option that a question points to', () => {
    const threads = [
      asThread(question('q-4', { anchor: { kind: 'scenario', id: 'w-2' } })),
      asThread(question('q-5', { anchor: { kind: 'option', option: sealedOption } })),
    ]
    const about = (id: string) => screenContent({ ...records, threads, showing: { kind: 'question', id } })
    expect(about('q-4')).toMatchObject({ anchor: { kind: 'scenario', scenario: { id: 'w-2' } } })
    expect(about('q-5')).toMatchObject({ anchor: { kind: 'option', option: sealedOption } })
  })

  it('is a photograph with its caption, and nothing once that was withdrawn', () => {
    expect(shown({ kind: 'picture', id: 'p-1' })).toMatchObject({ picture: { caption: 'The niche, drilled' } })
    expect(shown({ kind: 'picture', id: 'p-2' })).toEqual({ kind: 'gone' })
  })

  it('is the question that stands for a folded one', () => {
    expect(shown({ kind: 'question', id: 'q-2' })).toMatchObject({ thread: { question: { id: 'q-1' } } })
  })

  it('brings the step that a question points to, with its number', () => {
    const threads = [asThread(question('q-3', { anchor: { kind: 'step', id: 's-2' } }))]
    const content = screenContent({ ...records, threads, showing: { kind: 'question', id: 'q-3' } })
    expect(content).toMatchObject({ anchor: { kind: 'step', number: 2, step: { id: 's-2' } } })
  })

  it('shows a question without its anchor when that was removed', () => {
    const threads = [asThread(question('q-3', { anchor: { kind: 'note', id: 'nowhere' } }))]
    const content = screenContent({ ...records, threads, showing: { kind: 'question', id: 'q-3' } })
    expect(content).toMatchObject({ kind: 'question' })
    expect(content).not.toHaveProperty('anchor')
  })
})

describe('the key of the main screen', () => {
  it('differs between two things of one kind, so that the screen fades over', () => {
    expect(screenKey({ kind: 'note', id: 'a' })).not.toBe(screenKey({ kind: 'note', id: 'b' }))
    expect(screenKey({ kind: 'audiogram', ear: 'right' })).not.toBe(screenKey({ kind: 'audiogram', ear: 'both' }))
    expect(screenKey({ kind: 'audiogram', ear: 'right', test: 'a' })).not.toBe(
      screenKey({ kind: 'audiogram', ear: 'right' }),
    )
  })
})

it('a vote is shown as it stands, and gone once it was taken away', () => {
  expect(shown({ kind: 'vote', id: 'v-1' })).toMatchObject({ kind: 'vote', vote: { id: 'v-1' } })
  expect(shown({ kind: 'vote', id: 'v-2' })).toEqual({ kind: 'gone' })
  expect(shown({ kind: 'sync-mark' })).toEqual({ kind: 'sync-mark' })
})
