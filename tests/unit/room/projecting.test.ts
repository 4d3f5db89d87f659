import { afterEach, beforeEach, expect, it, vi } from 'vitest'
import type { CaseProjection } from '../../../lib/interchange/api.ts'
import { Projecting } from '../../../server/room/projecting.ts'
import type { Room } from '../../../server/room/room.ts'
import type { Store } from '../../../server/store/store.ts'

const room = { caseId: 'teal' } as Room
let saved = 0
let finish = (): void => undefined

/** A store of which each write takes until `finish` is called. */
const store = {
  findCase: async () => ({}) as CaseProjection,
  saveProjection: () =>
    new Promise<void>((resolve) => {
      finish = () => {
        saved += 1
        resolve()
      }
    }),
  saveOutcome: async () => undefined,
} as unknown as Store

const projecting = () =>
  new Projecting({
    store,
    async *opened() {},
    failed: (_, error) => {
      throw error
    },
  })

beforeEach(() => {
  vi.useFakeTimers()
  saved = 0
})
afterEach(() => vi.useRealTimers())

it('writes what changes meanwhile once more, and is settled only then', async () => {
  const columns = projecting()
  columns.changed(room)
  columns.changed(room)
  await vi.advanceTimersByTimeAsync(1000)
  columns.changed(room)
  let isSettled = false
  const settled = columns.settled().then(() => {
    isSettled = true
  })
  finish()
  await vi.advanceTimersByTimeAsync(1000)
  expect([saved, isSettled]).toEqual([1, false])
  finish()
  await settled
  expect(saved).toBe(2)
})
