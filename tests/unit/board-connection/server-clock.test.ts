import { afterEach, beforeEach, expect, it, vi } from 'vitest'
import { keepOffset, serverNow } from '../../../app/server-clock.ts'

const start = Date.parse('2026-05-04T10:00:00.000Z')
const hourMs = 3_600_000

beforeEach(() => {
  vi.useFakeTimers({ now: start })
  // The device is five minutes behind the server.
  keepOffset({ offsetMs: 300_000, errorMs: 5 })
})
afterEach(() => void vi.useRealTimers())

const aheadMs = () => serverNow().getTime() - start

it('the server’s time is the own one and the offset', () => {
  expect(aheadMs()).toBe(300_000)
  vi.advanceTimersByTime(hourMs)
  expect(aheadMs()).toBe(hourMs + 300_000)
})

it('a clock that is set back is seen through', () => {
  vi.advanceTimersByTime(1000)
  vi.setSystemTime(start - 48 * hourMs)
  expect(aheadMs()).toBe(301_000)
  vi.advanceTimersByTime(hourMs)
  expect(aheadMs()).toBe(hourMs + 301_000)
})

it('a device that slept is believed: only its clock went on', () => {
  vi.setSystemTime(start + 8 * hourMs)
  expect(aheadMs()).toBe(8 * hourMs + 300_000)
})

it('what is read anew counts from then on', () => {
  vi.setSystemTime(start - 48 * hourMs)
  keepOffset({ offsetMs: 48 * hourMs + 300_000, errorMs: 5 })
  expect(aheadMs()).toBe(300_000)
})
