import { spawn } from 'node:child_process'
import { once } from 'node:events'
import { join } from 'node:path'
import { createInterface } from 'node:readline'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import * as Y from 'yjs'
import { openSqliteStore } from '../../server/store/sqlite-store.ts'
import { checkpointEvery } from '../../server/store/store.ts'
import { makeTemporaryFolder, removeFolder } from '../support/temporary-folder.ts'

const start = Date.parse('2026-03-02T08:00:00.000Z')
let folder: string
let file: string
beforeEach(async () => {
  folder = await makeTemporaryFolder()
  file = join(folder, 'store.db')
})
afterEach(() => removeFolder(folder))

describe('a process that is killed while it writes a checkpoint', () => {
  const source = new URL('../support/checkpointing-process.ts', import.meta.url).pathname

  /** Kills the process as it begins to write its nth snapshot, each of which is a checkpoint too. */
  async function killAtCheckpoint(nth: number): Promise<void> {
    const child = spawn(process.execPath, ['--import', 'tsx', source, file, String(checkpointEvery)], {
      stdio: ['ignore', 'pipe', 'inherit'],
    })
    let begun = 0
    const lines = createInterface({ input: child.stdout })
    lines.on('line', () => {
      begun++
      if (begun === nth) child.kill('SIGKILL')
    })
    await Promise.all([once(child, 'exit'), once(lines, 'close')])
  }

  /** Letters in the text at the time of update k: k, if the state is that of the first k updates. */
  async function lettersAt(moments: readonly number[]): Promise<number[]> {
    const store = await openSqliteStore(file)
    const letters: number[] = []
    for (const k of moments) {
      const { snapshot, updates } = await store.loadAt('record.a', new Date(start + k).toISOString())
      const doc = new Y.Doc()
      if (snapshot !== null) Y.applyUpdate(doc, snapshot.state)
      for (const { update } of updates) Y.applyUpdate(doc, update)
      letters.push(doc.getText('text').length)
    }
    await store.close()
    return letters
  }

  it('[S7] has each moment whole afterwards, and goes on', { timeout: 120_000 }, async () => {
    let stored = 0
    for (const nth of [1, 2, 1]) {
      await killAtCheckpoint(nth)
      stored += nth * checkpointEvery
      const moments = [1, checkpointEvery, checkpointEvery + 1, stored - 1, stored].filter((k) => k <= stored)
      expect(await lettersAt(moments)).toEqual(moments)
    }
  })
})
