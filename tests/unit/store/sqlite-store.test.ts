import { readFile, stat, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import Database from 'better-sqlite3'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { openSqliteStore } from '../../../server/store/sqlite-store.ts'
import { StoreOutage } from '../../../server/store/store.ts'
import { makeTemporaryFolder, removeFolder } from '../../support/temporary-folder.ts'
import { storeContract } from './store-contract.ts'

describe('SQLite store', () => {
  storeContract(async () => {
    const folder = await makeTemporaryFolder()
    return { open: () => openSqliteStore(join(folder, 'store.db')), dispose: () => removeFolder(folder) }
  })
})

describe('SQLite file', () => {
  let folder: string
  beforeEach(async () => {
    folder = await makeTemporaryFolder()
  })
  afterEach(() => removeFolder(folder))

  it('is refused when a newer version of the program wrote it', async () => {
    const file = join(folder, 'store.db')
    const db = new Database(file)
    db.pragma('user_version = 9999')
    db.close()
    await expect(openSqliteStore(file)).rejects.toThrow(/schema version 9999/)
  })

  it('is refused when it is no database', async () => {
    const file = join(folder, 'store.db')
    await writeFile(file, 'a text that is no database, and long enough to have a header of a hundred bytes'.repeat(20))
    await expect(openSqliteStore(file)).rejects.toBeInstanceOf(StoreOutage)
  })

  it('is refused when its folder does not exist', async () => {
    await expect(openSqliteStore(join(folder, 'none', 'store.db'))).rejects.toBeInstanceOf(StoreOutage)
  })

  it('is read by nobody but its own user, nor is what is made beside it', async () => {
    const file = join(folder, 'store.db')
    const store = await openSqliteStore(file)
    const modes = await Promise.all([file, `${file}-wal`, `${file}-shm`].map(async (each) => (await stat(each)).mode))
    expect(modes.map((mode) => mode & 0o077)).toEqual([0, 0, 0])
    await store.close()
  })

  it('[S6] does not contain the bytes of an erased case any more', async () => {
    const file = join(folder, 'store.db')
    const secret = 'finding: fixed stapes footplate'
    const store = await openSqliteStore(file)
    await store.createProgramme({ id: 'p', label: 'P', createdAt: '' })
    await store.createCase({ id: 'c', programme: 'p', label: 'C', rank: 'a', createdAt: '' })
    const update = new TextEncoder().encode(secret)
    await store.append([{ document: 'record.c', update, author: 'a', role: 'team', at: '', clients: [] }])
    await store.eraseCase('c', { id: 'e', by: 'a', at: '' })
    // Not in what the next pages are written to either, while the server goes on.
    expect((await readFile(`${file}-wal`)).includes(secret)).toBe(false)
    await store.close()
    expect((await readFile(file)).includes(secret)).toBe(false)
  })
})
