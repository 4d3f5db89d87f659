import { afterEach, beforeEach, expect, test, vi } from 'vitest'
import { askEarly, takeEarly } from '../../../app/early-answers.ts'

const fetched = vi.fn(async (path: string) => new Response(path))

beforeEach(() => {
  vi.useFakeTimers({ toFake: ['performance'] })
  vi.stubGlobal('fetch', fetched)
  fetched.mockClear()
})
afterEach(() => {
  vi.useRealTimers()
  vi.unstubAllGlobals()
})

test('an early answer is for the first who asks', async () => {
  askEarly(['/api/me', '/api/cases/teal'])
  expect(await (await takeEarly('/api/me'))?.text()).toBe('/api/me')
  expect(takeEarly('/api/me')).toBeUndefined()
  expect(takeEarly('/api/programmes')).toBeUndefined()
  expect(fetched).toHaveBeenCalledTimes(2)
})

test('what was asked long ago says nothing of now', () => {
  askEarly(['/api/me'])
  vi.advanceTimersByTime(10_001)
  expect(takeEarly('/api/me')).toBeUndefined()
})

test('a failure is heard of by whoever takes it, and by nobody else', async () => {
  fetched.mockRejectedValueOnce(new TypeError('no link'))
  askEarly(['/api/me'])
  await expect(takeEarly('/api/me')).rejects.toThrow('no link')
})
