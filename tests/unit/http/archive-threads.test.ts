import { setImmediate as nextTurn } from 'node:timers/promises'
import { expect, it, vi } from 'vitest'
import { ArchiveThreads } from '../../../server/exchange/archive-thread.ts'

it('gathers what goes into an archive only when its turn has come, also after one that failed', async () => {
  const threads = new ArchiveThreads()
  let end = (): void => undefined
  const first = threads.run(() => new Promise((_, reject) => (end = () => reject(new Error('first')))))
  const gather = vi.fn(() => Promise.reject(new Error('second')))
  const second = expect(threads.run(gather)).rejects.toThrow('second')
  await nextTurn()
  expect(gather).not.toHaveBeenCalled()
  end()
  await expect(first).rejects.toThrow('first')
  await second
})
