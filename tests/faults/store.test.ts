import { spawn } from 'node:child_process'
import { once } from 'node:events'
import { join } from 'node:path'
import { createInterface } from 'node:readline'
import type { Worker } from 'node:worker_threads'
import Database from 'better-sqlite3'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { startSourceThread } from '../../server/store/source-thread.ts'
import { openSqliteStore } from '../../server/store/sqlite-store.ts'
import { StoreOutage, type UpdateEntry } from '../../server/store/store.ts'
import { makeTemporaryFolder, removeFolder } from '../support/temporary-folder.ts'

const update = (bytes = 200, over: Partial<UpdateEntry> = {}): UpdateEntry => ({
  document: 'record.a',
  update: new Uint8Array(bytes).fill(1),
  author: 'anna',
  role: 'team',
  at: '2026-03-02T08:00:00.000Z',
  clients: [],
  ...over,
})

let folder: string
let file: string
beforeEach(async () => {
  folder = await makeTemporaryFolder()
  file = join(folder, 'store.db')
})
afterEach(() => removeFolder(folder))

const storedIn = async (path: string) => {
  const store = await openSqliteStore(path)
  const { updates, clientOwners } = await store.load('record.a')
  await store.close()
  return { seqs: updates.map(({ seq }) => seq), updates, clientOwners }
}

const upTo = (last: number) => Array.from({ length: last }, (_, index) => index + 1)

describe('a thread that dies', () => {
  const workerSource = new URL('../../server/store/sqlite/worker.ts', import.meta.url)

  it('[S1] [S3] rejects what it had not acknowledged with an outage, keeps the rest, and is started again', async () => {
    const threads: Worker[] = []
    const store = await openSqliteStore(file, (path) => {
      const thread = startSourceThread(workerSource, { file: path })
      threads.push(thread)
      return thread
    })
    const acknowledged = (await store.append(upTo(10).map(() => update()))).length
    const inFlight = store.append([update()])
    const outcome = inFlight.then(
      (seqs) => seqs.length,
      (error: unknown) => error,
    )
    // The request leaves at the end of this turn; the thread is gone before it can answer.
    await new Promise((resolve) => setImmediate(resolve))
    await threads[0]?.terminate()
    const lost = await outcome
    expect(lost).toBeInstanceOf(StoreOutage)
    expect(lost instanceof StoreOutage && lost.cause).toBeInstanceOf(Error)
    const next = await store.append([update()])
    expect(threads).toHaveLength(2)
    await store.close()
    const { seqs } = await storedIn(file)
    expect(seqs).toEqual(upTo(seqs.length))
    expect([acknowledged + 1, acknowledged + 2]).toContain(seqs.length)
    expect(next).toEqual([seqs.length])
  })
})

describe('a disk that fills up', () => {
  const fullDiskThread = new URL('../support/full-disk-thread.ts', import.meta.url)
  const spareFor = { pages: 60 }

  it('[S3] rejects with an outage and its cause, writes nothing of the append, and goes on when there is room', async () => {
    const store = await openSqliteStore(file, (path) => startSourceThread(fullDiskThread, { file: path, ...spareFor }))
    let acknowledged = 0
    let failure: unknown
    while (failure === undefined) {
      // Two rows and a client id an append: half of it would be seen below.
      await store.append([update(3_000), update(3_000, { clients: [acknowledged] })]).then(
        (seqs) => {
          acknowledged = seqs[1] ?? 0
        },
        (error: unknown) => {
          failure = error
        },
      )
    }
    expect(failure).toBeInstanceOf(StoreOutage)
    expect(failure instanceof StoreOutage && String(failure.cause)).toMatch(/full/)
    expect(acknowledged).toBeGreaterThan(0)
    await store.close()
    const { seqs, clientOwners } = await storedIn(file)
    expect(seqs).toEqual(upTo(acknowledged))
    expect(clientOwners.size).toBe(acknowledged / 2)
    const roomy = await openSqliteStore(file)
    expect(await roomy.append([update()])).toEqual([acknowledged + 1])
    await roomy.close()
  })
})

describe('a database that another process holds', () => {
  it('[S3] rejects with an outage instead of waiting for ever, and works again afterwards', async () => {
    const store = await openSqliteStore(file)
    await store.append([update()])
    const other = new Database(file)
    other.exec('BEGIN IMMEDIATE')
    await expect(store.append([update()])).rejects.toBeInstanceOf(StoreOutage)
    other.exec('ROLLBACK')
    other.close()
    expect(await store.append([update()])).toEqual([2])
    await store.close()
  })
})

describe('a process that is killed while it appends', () => {
  const appendingProcess = new URL('../support/appending-process.ts', import.meta.url).pathname

  /** Kills the process after it has acknowledged so many appends. @returns all that it acknowledged */
  async function acknowledgedBeforeKill(afterAppends: number): Promise<number[]> {
    const child = spawn(process.execPath, ['--import', 'tsx', appendingProcess, file], {
      stdio: ['ignore', 'pipe', 'inherit'],
    })
    const acknowledged: number[] = []
    const lines = createInterface({ input: child.stdout })
    lines.on('line', (line) => {
      acknowledged.push(Number(line))
      if (acknowledged.length === afterAppends) child.kill('SIGKILL')
    })
    await Promise.all([once(child, 'exit'), once(lines, 'close')])
    return acknowledged
  }

  it('[S1] [S2] has every acknowledged update in place, without gaps, after each of five kills', async () => {
    const everAcknowledged: number[] = []
    for (const afterAppends of [1, 7, 40, 150, 400]) {
      everAcknowledged.push(...(await acknowledgedBeforeKill(afterAppends)))
      const { seqs, updates } = await storedIn(file)
      expect(seqs).toEqual(upTo(seqs.length))
      expect(seqs.length).toBeGreaterThanOrEqual(Math.max(...everAcknowledged))
      expect(updates.every(({ update: { length } }) => length === 200)).toBe(true)
    }
    expect(new Set(everAcknowledged).size).toBe(everAcknowledged.length)
  })
})
