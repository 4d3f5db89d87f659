import { describe, expect, it } from 'vitest'
import type { EarCourse } from '../../../lib/outcomes/ear-course.ts'
import { latestVerdict } from '../../../lib/outcomes/verdict.ts'
import { watchedOver } from '../../../lib/outcomes/watched-over.ts'
import { type WatchedTrigger, watchedAt } from '../../../lib/outcomes/watched-trigger.ts'
import { aidedCourse, courseVisit, even, sourced } from '../../fixtures/ear-courses.ts'

const trigger = (parts: Partial<WatchedTrigger> = {}): WatchedTrigger => ({
  measure: 'effective-gain',
  from: 2000,
  to: 4000,
  change: 'falls-by',
  amountDb: 10,
  reference: 'first-fitting',
  ...parts,
})
const verdicts = (course: EarCourse, of = trigger()) =>
  watchedOver(of, course).map(({ watched }) => (watched.kind === 'judged' ? watched.verdict : watched.reason))

describe('a trigger at a visit', () => {
  it('is met, not met, or lost in test-retest error', () => {
    expect(verdicts(aidedCourse(30, 35, 40, 45))).toEqual(['no-reference', 'not-met', 'cannot-tell', 'met'])
  })

  it('says by how much, against which visit and with what probability', () => {
    expect(watchedAt(trigger(), aidedCourse(30, 45), 1)).toMatchObject({
      value: { low: -25, high: -25 },
      reference: { visit: 'first', value: { low: -10, high: -10 } },
      changeDb: { low: 15, high: 15 },
      frequencies: [2000, 3000, 4000],
      probability: { low: expect.closeTo(0.9928, 4) },
    })
  })

  it('needs the octaves and the ends of its band on both sides, and uses what else both have', () => {
    const aided = (source: string, level: number) => sourced(source, { 2000: level, 4000: level })
    const course = {
      ...aidedCourse(30),
      visits: [
        courseVisit('first', '2026-01-01', { aided: sourced('a', even(30)) }),
        courseVisit('later', '2026-02-01', { aided: aided('b', 45) }),
        courseVisit('latest', '2026-03-01', { aided: sourced('c', { 2000: 45 }) }),
      ],
    }
    expect(watchedAt(trigger(), course, 1)).toMatchObject({ kind: 'judged', frequencies: [2000, 4000] })
    expect(watchedAt(trigger(), course, 2)).toEqual({ kind: 'absent', reason: 'not-measured', missing: [4000] })
    expect(watchedAt(trigger({ from: 3000, to: 4000 }), course, 1)).toMatchObject({ missing: [3000] })
  })

  it('holds a limit against the number itself', () => {
    const above = trigger({ measure: 'aided-threshold', change: 'is-above', amountDb: 35, reference: 'none' })
    expect(verdicts(aidedCourse(30, 35, 40), above)).toEqual(['not-met', 'cannot-tell', 'met'])
    const below = trigger({ change: 'is-below', amountDb: -15, reference: 'none' })
    expect(verdicts(aidedCourse(30, 45), below)).toEqual(['not-met', 'met'])
  })

  it('counts no response as at least its limit', () => {
    const rises = trigger({ measure: 'aided-threshold', change: 'rises-by' })
    expect(watchedAt(rises, aidedCourse(30, { none: 80 }), 1)).toMatchObject({
      verdict: 'met',
      probability: { high: 1 },
      changeDb: { low: 50, high: Number.POSITIVE_INFINITY },
    })
    expect(watchedAt(rises, aidedCourse(30, { none: 35 }), 1)).toMatchObject({ verdict: 'cannot-tell' })
    expect(watchedAt(rises, aidedCourse({ none: 80 }, 30), 1)).toMatchObject({ verdict: 'not-met' })
  })

  it('takes the best visit before it', () => {
    const best = trigger({ reference: 'best-so-far' })
    expect(verdicts(aidedCourse(45, 30, 45), best)).toEqual(['no-reference', 'not-met', 'met'])
    expect(watchedAt(best, aidedCourse(45, 30, 45), 2)).toMatchObject({ reference: { visit: 'later-1' } })
    expect(watchedAt(best, aidedCourse(30, 30, 30), 2)).toMatchObject({ reference: { visit: 'first' } })
  })

  it('is held against the time before surgery, the forecast and the other ear', () => {
    const course: EarCourse = {
      ...aidedCourse(30),
      otherBefore: { bone: sourced('other', even(20)) },
      forecast: [2000, 3000, 4000].map((frequency) => ({ frequency: frequency as 2000, aidedThreshold: 25 })),
      visits: [
        courseVisit('first', '2026-01-01', {
          air: sourced('v', even(40)),
          bone: sourced('v', even(35)),
          aided: sourced('w', even(45)),
        }),
      ],
    }
    const against = (parts: Partial<WatchedTrigger>) => watchedAt(trigger(parts), course, 0)
    expect(against({ measure: 'bone-conduction', change: 'rises-by', reference: 'before-surgery' })).toMatchObject({
      verdict: 'met',
      changeDb: { low: 15 },
    })
    expect(against({ measure: 'air-bone-gap', change: 'falls-by', reference: 'before-surgery' })).toMatchObject({
      value: { low: 5 },
      changeDb: { low: 35 },
    })
    expect(against({ measure: 'aided-threshold', change: 'rises-by', reference: 'forecast' })).toMatchObject({
      verdict: 'met',
      sdDb: expect.closeTo(2.5 / Math.sqrt(3), 12),
    })
    expect(against({ measure: 'bone-conduction', change: 'rises-by', reference: 'other-ear' })).toMatchObject({
      changeDb: { low: 15 },
      verdict: 'met',
    })
    expect(against({ measure: 'bone-conduction', reference: 'forecast' })).toMatchObject({ reason: 'no-reference' })
    expect(against({ reference: 'best-so-far' })).toMatchObject({ reason: 'no-reference' })
  })

  it('counts at the latest visit that says anything', () => {
    const course = aidedCourse(30, 45)
    const visits = [...course.visits, courseVisit('empty', '2026-04-01', {})]
    const over = watchedOver(trigger(), { ...course, visits })
    expect(latestVerdict(over)).toMatchObject({ visit: 'later-1', watched: { verdict: 'met' } })
    expect(latestVerdict([])).toBeUndefined()
  })
})
