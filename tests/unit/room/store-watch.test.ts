import { afterEach, beforeEach, expect, it, vi } from 'vitest'
import { limits } from '../../../server/room/limits.ts'
import { StoreWatch } from '../../../server/room/store-watch.ts'

let canWrite: boolean
let trials: number
let away: number[]
let watch: StoreWatch
beforeEach(() => {
  vi.useFakeTimers()
  canWrite = false
  trials = 0
  away = []
  const tryWriting = async () => {
    trials += 1
    if (!canWrite) throw new Error('full')
  }
  watch = new StoreWatch({ store: { tryWriting }, back: (awayMs) => void away.push(awayMs) })
})
afterEach(() => {
  watch.close()
  vi.useRealTimers()
})

it('tries at once, then once in a while, and is back with the first trial that goes through', async () => {
  watch.failed()
  watch.failed()
  expect(watch.isAway).toBe(true)
  await vi.advanceTimersByTimeAsync(3 * limits.storeRetryMs)
  expect([trials, watch.isAway]).toEqual([4, true])
  canWrite = true
  await vi.advanceTimersByTimeAsync(limits.storeRetryMs)
  expect([trials, watch.isAway, away]).toEqual([5, false, [4 * limits.storeRetryMs]])
  await vi.advanceTimersByTimeAsync(10 * limits.storeRetryMs)
  expect(trials).toBe(5)
})

it('waits before the first trial when it failed again soon after it was back', async () => {
  canWrite = true
  watch.failed()
  await vi.advanceTimersByTimeAsync(0)
  expect([trials, watch.isAway]).toEqual([1, false])
  watch.failed()
  await vi.advanceTimersByTimeAsync(limits.storeRetryMs - 1)
  expect([trials, watch.isAway]).toEqual([1, true])
  await vi.advanceTimersByTimeAsync(1)
  expect([trials, watch.isAway]).toEqual([2, false])
  await vi.advanceTimersByTimeAsync(limits.storeCalmMs)
  watch.failed()
  await vi.advanceTimersByTimeAsync(0)
  expect([trials, watch.isAway]).toEqual([3, false])
})

it('tries no more once it is closed', async () => {
  watch.failed()
  watch.close()
  await vi.advanceTimersByTimeAsync(10 * limits.storeRetryMs)
  expect(trials).toBe(0)
})
