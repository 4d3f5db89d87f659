import { describe, expect, it } from 'vitest'
import { dueness, inOrderOfTime, monthsLater, nextVisitDue, usualVisits } from '../../../lib/board/visit-plan.ts'
import { heldVisit, plannedVisit } from '../../fixtures/visits.ts'

describe('the usual plan', () => {
  it('counts months from the first fitting, six weeks after the operation until its day is known', () => {
    expect(usualVisits('2026-01-05', undefined, 1).map(({ occasion, plannedOn }) => [occasion, plannedOn])).toEqual([
      ['first-fitting', '2026-02-16'],
      ['1-month', '2026-03-16'],
      ['3-months', '2026-05-16'],
      ['6-months', '2026-08-16'],
      ['12-months', '2027-02-16'],
    ])
    expect(usualVisits('2026-01-05', '2026-03-02', 3).slice(-3)).toEqual([
      { occasion: '12-months', plannedOn: '2027-03-02' },
      { occasion: 'yearly', year: 2, plannedOn: '2028-03-02' },
      { occasion: 'yearly', year: 3, plannedOn: '2029-03-02' },
    ])
  })

  it('ends a month at its last day', () => {
    expect(monthsLater('2026-08-31', 6)).toBe('2027-02-28')
    expect(monthsLater('2027-08-31', 6)).toBe('2028-02-29')
    expect(monthsLater('2026-12-31', 1)).toBe('2027-01-31')
  })
})

describe('what is due', () => {
  it('is the earliest visit that is still to be held', () => {
    const visits = [
      heldVisit('a', '2026-02-16', { occasion: 'first-fitting' }),
      plannedVisit('b', '2026-08-16', { occasion: '6-months' }),
      plannedVisit('c', '2026-05-16'),
      plannedVisit('d', '2026-03-16', { occasion: '1-month', state: 'missed' }),
    ]
    expect(nextVisitDue(visits)).toBe('2026-05-16')
    expect(nextVisitDue([])).toBeUndefined()
    expect(inOrderOfTime(visits).map(({ id }) => id)).toEqual(['a', 'd', 'c', 'b'])
  })

  it('is due from two weeks before its day and overdue from the day after', () => {
    expect(dueness('2026-05-16', '2026-05-01')).toBe('later')
    expect(dueness('2026-05-16', '2026-05-02')).toBe('due')
    expect(dueness('2026-05-16', '2026-05-16')).toBe('due')
    expect(dueness('2026-05-16', '2026-05-17')).toBe('overdue')
  })
})
