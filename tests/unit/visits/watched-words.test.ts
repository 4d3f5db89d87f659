import { describe, expect, it } from 'vitest'
import { earCourseOf } from '../../../lib/board/ear-course.ts'
import type { SpeechTest } from '../../../lib/board/records/speech-test.ts'
import { metByMeasurement } from '../../../lib/board/watched-contingencies.ts'
import { watchedOver } from '../../../lib/outcomes/watched-over.ts'
import { type WordsTrigger, watchedWordsAt } from '../../../lib/outcomes/watched-words.ts'
import { asDbSpl } from '../../../lib/units/levels.ts'
import { contingency } from '../../fixtures/board-records.ts'
import { speechTest } from '../../fixtures/speech-tests.ts'
import { heldVisit } from '../../fixtures/visits.ts'

const visits = [
  heldVisit('first', '2026-02-16', { occasion: 'first-fitting' }),
  heldVisit('middle', '2026-05-16'),
  heldVisit('last', '2026-08-16'),
]
const list = (
  id: string,
  visit: string | undefined,
  right: number,
  parts: Partial<Record<keyof SpeechTest, unknown>> = {},
) =>
  speechTest({
    id,
    ear: 'right',
    condition: 'aided',
    performedOn: visits.find((each) => each.id === visit)?.held?.on ?? '2025-12-01',
    items: 25,
    right,
    ...(visit === undefined ? {} : { visit }),
    ...parts,
  })
const courseOf = (...speechTests: SpeechTest[]) =>
  earCourseOf({ ear: 'right', tests: [], speechTests, visits, forecasts: [], operatedOn: '2026-01-05' })
const trigger = (parts: Partial<WordsTrigger> = {}): WordsTrigger => ({
  condition: 'aided',
  levelDbSpl: 65,
  reference: 'best-so-far',
  ...parts,
})
const verdicts = (course: ReturnType<typeof courseOf>, of = trigger()) =>
  watchedOver(of, course).map(({ watched }) => (watched.kind === 'judged' ? watched.verdict : watched.reason))

describe('a trigger on word scores', () => {
  const course = courseOf(list('a', 'first', 18), list('b', 'middle', 22), list('c', 'last', 15))

  it('is held against the best visit before it, the first fitting, and the time before surgery', () => {
    expect(verdicts(course)).toEqual(['no-reference', 'not-met', 'met'])
    expect(watchedWordsAt(trigger(), course, 2)).toMatchObject({
      score: { correct: 15, presented: 25 },
      reference: { score: { correct: 22, presented: 25 }, visit: 'middle' },
      leastByChance: 17,
    })
    expect(verdicts(course, trigger({ reference: 'first-fitting' }))).toEqual(['no-reference', 'not-met', 'not-met'])
    const before = list('before', undefined, 22, { condition: 'unaided' })
    const unaided = trigger({ condition: 'unaided', reference: 'before-surgery' })
    const later = list('later', 'last', 10, { condition: 'unaided' })
    expect(verdicts(courseOf(before, later), unaided)).toEqual(['not-measured', 'not-measured', 'met'])
  })

  it('counts only monosyllables in quiet of this ear, condition and level', () => {
    for (const other of [
      { ear: 'left' },
      { ear: 'both' },
      { condition: 'unaided' },
      { speechLevel: 80 },
      { noiseLevel: 60 },
      { material: 'phonemes' },
      { state: 'entered-in-error', closing: { by: 'p-1', at: '2026-09-01T09:00:00.000Z', reason: 'wrong list' } },
    ])
      expect(verdicts(courseOf(list('a', 'first', 22), list('b', 'last', 5, other)))).toEqual([
        'no-reference',
        'not-measured',
        'not-measured',
      ])
  })

  it('adds up the lists of one visit, and leaves out one that another took the place of', () => {
    const repeated = {
      state: 'superseded',
      closing: { by: 'p-1', at: '2026-09-01T09:00:00.000Z', reason: 'repeated', supersededBy: 'd' },
    }
    const two = courseOf(
      list('a', 'first', 22),
      list('c', 'last', 20),
      list('d', 'last', 18),
      list('e', 'last', 2, repeated),
    )
    expect(watchedWordsAt(trigger(), two, 2)).toMatchObject({ score: { correct: 38, presented: 50 } })
  })

  it('leaves out one whose place a list of the other ear or of other material took', () => {
    const corrected = (by: string) => ({
      state: 'superseded',
      closing: { by: 'p-1', at: '2026-09-01T09:00:00.000Z', reason: 'typed in wrongly', supersededBy: by },
    })
    for (const right of [{ ear: 'left' }, { material: 'sentences' }, { noiseLevel: 60 }])
      expect(
        verdicts(courseOf(list('a', 'first', 22), list('b', 'last', 5, corrected('c')), list('c', 'last', 5, right))),
      ).toEqual(['no-reference', 'not-measured', 'not-measured'])
  })

  it('is not held against a list before surgery together with the one that corrected it', () => {
    const wrong = {
      state: 'superseded',
      closing: { by: 'p-1', at: '2025-12-02T09:00:00.000Z', reason: 'typed in wrongly', supersededBy: 'typed' },
    }
    const course = courseOf(list('wrong', undefined, 2, wrong), list('typed', undefined, 22), list('c', 'last', 10))
    expect(watchedWordsAt(trigger({ reference: 'before-surgery' }), course, 2)).toMatchObject({
      verdict: 'met',
      reference: { score: { correct: 22, presented: 25 } },
    })
  })

  it('is met anew by a list that was written down after somebody put the contingency back to watching', () => {
    const words = { kind: 'words', condition: 'aided', levelDbSpl: asDbSpl(65), reference: 'best-so-far' } as const
    const watched = [
      contingency('words', { trigger: words, moved: { by: 'p-1', at: '2026-08-17T09:00:00.000Z', why: 'seen' } }),
    ]
    const writtenAt = (at: string) =>
      metByMeasurement(
        watched,
        courseOf(list('a', 'first', 22, { at: '2026-02-16T09:00:00.000Z' }), list('c', 'last', 5, { at })),
        watchedOver,
      )
    expect(writtenAt('2026-08-17T08:00:00.000Z')).toEqual([])
    expect(writtenAt('2026-08-18T08:00:00.000Z')).toMatchObject([{ visit: 'last' }])
  })

  it('cannot tell from lists so short that chance reaches down to nothing', () => {
    const short = { items: 5 }
    expect(verdicts(courseOf(list('a', 'first', 3, short), list('b', 'last', 0, short)))[2]).toBe('cannot-tell')
    expect(verdicts(courseOf(list('a', 'first', 3, short), list('b', 'last', 3, short)))[2]).toBe('not-met')
  })

  it('moves the count of met contingencies', () => {
    const words = { kind: 'words', condition: 'aided', levelDbSpl: asDbSpl(65), reference: 'best-so-far' } as const
    const watched = [contingency('words', { trigger: words })]
    const met = metByMeasurement(watched, course, watchedOver)
    expect(met).toMatchObject([{ visit: 'last', judged: { of: 'words' } }])
  })

  it('refuses a visit that the course does not have', () => {
    expect(() => watchedWordsAt(trigger(), course, 3)).toThrow(RangeError)
  })
})
