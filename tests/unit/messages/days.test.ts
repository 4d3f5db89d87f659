import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest'
import { calendarDayHere } from '../../../app/calendar-day.ts'

describe.each([
  ['America/Los_Angeles', '2026-03-01'],
  ['UTC', '2026-03-02'],
  ['Pacific/Auckland', '2026-03-02'],
])('in %s', (zone, here) => {
  beforeEach(() => {
    vi.stubEnv('TZ', zone)
    vi.resetModules()
  })
  afterEach(() => vi.unstubAllEnvs())

  it('a calendar day is written as it stands', async () => {
    const { calendarDayOf } = await import('../../../app/messages/moments.ts')
    expect(calendarDayOf('2026-03-02')).toBe('2 Mar 2026')
  })

  it('today is the day of the reader', () => {
    expect(calendarDayHere(new Date('2026-03-02T00:30:00Z'))).toBe(here)
  })
})
