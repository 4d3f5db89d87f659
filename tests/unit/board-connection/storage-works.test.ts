import { afterEach, beforeEach, expect, test, vi } from 'vitest'
import { storageWorks } from '../../../app/board/connection/storage-works.ts'

beforeEach(() => void vi.useFakeTimers())
afterEach(() => {
  vi.useRealTimers()
  vi.unstubAllGlobals()
})

test('a browser whose storage never answers keeps nobody waiting', async () => {
  vi.stubGlobal('indexedDB', { open: () => ({}) })
  const works = storageWorks()
  await vi.advanceTimersByTimeAsync(3000)
  expect(await works).toBe(false)
})

test('a browser that forbids storage keeps no copy', async () => {
  vi.stubGlobal('indexedDB', {
    open: () => {
      throw new DOMException('not allowed', 'SecurityError')
    },
  })
  expect(await storageWorks()).toBe(false)
})
