import { describe, expect, it } from 'vitest'
import { earCourseOf, testsBefore, testsOfVisit } from '../../../lib/board/ear-course.ts'
import type { HearingTest } from '../../../lib/board/records/hearing-test.ts'
import { answerFrom } from '../../../lib/board/visit-answer.ts'
import { metByMeasurement } from '../../../lib/board/watched-contingencies.ts'
import { watchedOver } from '../../../lib/outcomes/watched-over.ts'
import { contingency } from '../../fixtures/board-records.ts'
import { hearingTest, points } from '../../fixtures/hearing-tests.ts'
import { heldVisit, plannedVisit, visitItem } from '../../fixtures/visits.ts'

const operatedOn = '2026-01-05'
const aided = (
  id: string,
  visit: string | undefined,
  performedOn: string,
  level: number,
  parts: Partial<HearingTest> = {},
) =>
  hearingTest({
    id,
    condition: 'aided',
    performedOn,
    ...(visit === undefined ? {} : { visit }),
    points: points({
      'aided.unmasked.500': level,
      'aided.unmasked.1000': level,
      'aided.unmasked.2000': level,
      'aided.unmasked.4000': level,
    }),
    ...parts,
  })
const superseded = (supersededBy: string): Partial<HearingTest> => ({
  state: 'superseded',
  closing: { by: 'p-1', at: '2026-06-01T09:00:00.000Z', reason: 'newer', supersededBy },
})
const first = heldVisit('first', '2026-02-16', { occasion: 'first-fitting' })
const later = heldVisit('later', '2026-05-16')
const visits = [later, first, plannedVisit('next', '2026-08-16', { occasion: '6-months' })]

describe('the tests of a visit', () => {
  it('count also when a later visit superseded them, but not when a repeat of the same visit did', () => {
    const tests = [
      aided('a', 'first', '2026-02-16', 30, superseded('c')),
      aided('b', 'later', '2026-05-16', 60, superseded('c')),
      aided('c', 'later', '2026-05-16', 35),
    ]
    expect(testsOfVisit(tests, 'first', 'right').aided?.id).toBe('a')
    expect(testsOfVisit(tests, 'later', 'right').aided?.id).toBe('c')
    expect(testsOfVisit(tests, 'later', 'left')).toEqual({})
  })

  it('are never those entered in error', () => {
    const wrong = aided('a', 'first', '2026-02-16', 30, {
      state: 'entered-in-error',
      closing: { by: 'p-1', at: '2026-06-01T09:00:00.000Z', reason: 'wrong ear' },
    })
    expect(testsOfVisit([wrong], 'first', 'right')).toEqual({})
  })
})

describe('the course of an ear', () => {
  const before = hearingTest({ id: 'before', performedOn: '2026-01-05', state: 'current' })
  const old = hearingTest({ id: 'old', performedOn: '2025-06-01', ...superseded('before') })
  const trial = aided('trial', undefined, '2026-01-05', 20)
  const tests = [old, before, trial, aided('a', 'first', '2026-02-16', 30), aided('b', 'later', '2026-05-16', 50)]

  it('has the last test before the operation and the held visits in their order', () => {
    const course = earCourseOf({ ear: 'right', tests, speechTests: [], visits, forecasts: [], operatedOn })
    expect(course.before.air?.source).toBe('before')
    expect(course.before.aided).toBeUndefined()
    expect(course.visits.map(({ visit, isFirstFitting }) => [visit, isFirstFitting])).toEqual([
      ['first', true],
      ['later', false],
    ])
    expect(course.visits.map(({ ear }) => ear.aided?.source)).toEqual(['a', 'b'])
  })

  it('has the other ear as it was tested last, whether at the visit or apart from it', () => {
    const left = (id: string, performedOn: string, level: number, visit?: string) =>
      aided(id, visit, performedOn, level, { ear: 'left' })
    const other = [left('own', '2025-11-01', 40), left('apart', '2026-03-01', 35), left('future', '2026-08-01', 20)]
    const otherAt = (all: readonly HearingTest[]) =>
      earCourseOf({ ear: 'right', tests: all, speechTests: [], visits, forecasts: [], operatedOn }).visits.map(
        ({ otherEar }) => otherEar.aided?.source,
      )
    expect(otherAt([...tests, ...other])).toEqual([undefined, 'apart'])
    expect(otherAt([...tests, ...other, left('filed', '2026-05-16', 30, 'later')])).toEqual([undefined, 'filed'])
    const course = earCourseOf({
      ear: 'right',
      tests: [...tests, ...other],
      speechTests: [],
      visits,
      forecasts: [],
      operatedOn,
    })
    const trigger = { measure: 'aided-threshold', from: 500, to: 4000, change: 'rises-by', amountDb: 10 } as const
    const [first, later] = watchedOver({ ...trigger, reference: 'other-ear' }, course)
    // Aided before the operation: 40 dB against 30; then 35 dB against 50.
    expect(first?.watched).toMatchObject({ kind: 'judged', verdict: 'not-met', changeDb: { low: -10 } })
    expect(later?.watched).toMatchObject({ kind: 'judged', changeDb: { low: 15 } })
  })

  it('is the other way round for the other ear', () => {
    const right = earCourseOf({ ear: 'right', tests, speechTests: [], visits, forecasts: [], operatedOn })
    const left = earCourseOf({ ear: 'left', tests, speechTests: [], visits, forecasts: [], operatedOn })
    expect(left.otherBefore).toEqual(right.before)
    expect(left.visits.map(({ otherEar }) => otherEar)).toEqual(right.visits.map(({ ear }) => ear))
  })

  it('takes the first visit for the operation where nobody knows its day', () => {
    expect(testsBefore(tests, 'right', '2026-02-16').unaided?.id).toBe('before')
    expect(earCourseOf({ ear: 'right', tests, speechTests: [], visits, forecasts: [] }).before.air?.source).toBe(
      'before',
    )
  })

  it('meets a watched contingency until somebody has put it back to watching after that visit', () => {
    const rises = {
      kind: 'measured',
      measure: 'aided-threshold',
      from: 500,
      to: 4000,
      change: 'rises-by',
      amountDb: 10,
      reference: 'first-fitting',
    } as const
    const course = earCourseOf({ ear: 'right', tests, speechTests: [], visits, forecasts: [], operatedOn })
    const moved = (at: string) => ({ by: 'p-1', at, why: 'seen' })
    const watched = [
      contingency('met', { trigger: rises }),
      contingency('not-met', { trigger: { ...rises, amountDb: 40 } }),
      contingency('found'),
      contingency('put-back', { trigger: rises, moved: moved('2026-05-17T09:00:00.000Z') }),
      contingency('put-back-before', { trigger: rises, moved: moved('2026-03-01T09:00:00.000Z') }),
      contingency('called', { trigger: rises, state: 'met' }),
    ]
    const met = metByMeasurement(watched, course, watchedOver)
    expect(met.map(({ contingency: { id }, visit }) => [id, visit])).toEqual([
      ['met', 'later'],
      ['put-back-before', 'later'],
    ])
  })
})

describe('the answer that a visit proposes', () => {
  const item = visitItem('high', 'later', { wanted: { ear: 'right', route: 'air', frequencies: [8000, 4000, 4000] } })
  const now = hearingTest({
    id: 'now',
    visit: 'later',
    performedOn: '2026-05-16',
    points: points({ 'air.masked.4000': 55, 'air.unmasked.4000': 50 }),
  })
  const then = { unaided: hearingTest({ points: points({ 'air.masked.4000': 65 }) }) }

  it('has the numbers of that visit beside those before, and names what was not measured', () => {
    expect(answerFrom(item, [now], then)).toMatchObject({
      found: [{ frequency: 4000, now: { level: 55 }, before: { level: 65 } }],
      missing: [8000],
    })
  })

  it('is none for an item without thresholds', () => {
    expect(answerFrom(visitItem('look', 'later'), [now], then)).toBeUndefined()
  })
})
