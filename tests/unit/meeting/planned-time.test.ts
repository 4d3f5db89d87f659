import { describe, expect, it } from 'vitest'
import { fromLocalEntry, minutesUntil, plannedTimeOf, toLocalEntry } from '../../../app/meeting/planned-time.ts'

const at = (local: string): Date => new Date(local)

describe('a planned time', () => {
  it('is a time of day today, and names its day otherwise', () => {
    const moment = at('2026-03-02T10:45').toISOString()
    expect(plannedTimeOf(moment, at('2026-03-02T08:00'))).toBe('10:45')
    expect(plannedTimeOf(moment, at('2026-03-01T23:59'))).toBe('2 Mar 2026, 10:45')
  })

  it('is so many begun minutes away, and says nothing when it is past or hours away', () => {
    const moment = at('2026-03-02T10:45').toISOString()
    const cases: [string, number | undefined][] = [
      ['2026-03-02T10:44:59', 1],
      ['2026-03-02T10:43:59', 2],
      ['2026-03-02T08:45', 120],
      ['2026-03-02T08:44', undefined],
      ['2026-03-02T10:45', undefined],
      ['2026-03-02T11:00', undefined],
    ]
    for (const [now, minutes] of cases) expect([now, minutesUntil(moment, at(now))]).toEqual([now, minutes])
  })

  it('goes into the form and comes back as the same minute', () => {
    const moment = at('2026-03-02T09:05').toISOString()
    expect(toLocalEntry(moment)).toBe('2026-03-02T09:05')
    expect(fromLocalEntry(toLocalEntry(moment))).toBe(moment)
    expect([toLocalEntry(null), fromLocalEntry('')]).toEqual(['', null])
    expect(fromLocalEntry('2026-13-02T09:05')).toBeUndefined()
  })
})
