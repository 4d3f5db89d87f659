import { createHash, randomBytes } from 'node:crypto'
import { hostname } from 'node:os'
import { CannotStart } from './cannot-start.ts'
import { dataFiles } from './data-folder.ts'
import { lockDataDir } from './data-lock.ts'
import { alone, type Neighbours } from './nodes/neighbours.ts'
import { joinPostgres } from './nodes/postgres-neighbours.ts'
import type { Settings } from './settings.ts'
import { openDatabase } from './store/postgres/database.ts'
import { openPostgresStore, postgresStore } from './store/postgres-store.ts'
import { problemBeforeOpening } from './store/sqlite/damage.ts'
import { openSqliteStore } from './store/sqlite-store.ts'
import type { Store } from './store/store.ts'

/** What keeps the board of one process: the store, and the other processes that use it too. */
export interface Keeper {
  readonly store: Store
  readonly neighbours: Neighbours
  /** Runs work while no other process of this board runs any. */
  alone<T>(work: () => Promise<T>): Promise<T>
  /**
   * All processes sign sessions and tickets with one key.
   * @throws CannotStart when the others have another one
   */
  agreeOnKey(key: Uint8Array): Promise<void>
  close(): Promise<void>
}

type Place = Pick<Settings, 'dataDir' | 'databaseUrl'>

/**
 * Opens what the settings name: PostgreSQL, or SQLite in the data folder for this process alone.
 * @throws CannotStart when another server uses the folder, or its files are damaged; StoreOutage when the store cannot be opened
 */
export async function openKeeper({ dataDir, databaseUrl }: Place): Promise<Keeper> {
  return databaseUrl === undefined ? sqliteKeeper(dataDir) : postgresKeeper(databaseUrl, dataDir)
}

/** The store alone, for a command beside the server. */
export const openStore = ({ dataDir, databaseUrl }: Place): Promise<Store> =>
  databaseUrl === undefined ? openSqliteStore(dataFiles(dataDir).store) : openPostgresStore(databaseUrl)

async function sqliteKeeper(dataDir: string): Promise<Keeper> {
  const unlock = lockDataDir(dataDir)
  refuseDamaged(dataFiles(dataDir).store)
  const store = await openSqliteStore(dataFiles(dataDir).store)
  return {
    store,
    neighbours: alone,
    alone: (work) => work(),
    agreeOnKey: async () => undefined,
    close: async () => {
      await store.close()
      unlock()
    },
  }
}

/** A damaged board is not opened: what is still there would be written over, and pages would be shown less than they know. */
function refuseDamaged(file: string): void {
  const problem = problemBeforeOpening(file)
  if (problem === undefined) return
  throw new CannotStart(
    `${problem}. "npm run check-store" says what is wrong, "npm run backup -- <new folder>" copies what can still be read; start from that or from an earlier backup.`,
  )
}

async function postgresKeeper(url: string, dataDir: string): Promise<Keeper> {
  const database = await openDatabase(url)
  const store = postgresStore(database)
  const name = `${hostname()}-${process.pid}-${randomBytes(4).toString('hex')}`
  const neighbours = await joinPostgres(url, database, name)
  return {
    store,
    neighbours,
    alone: database.alone,
    agreeOnKey: async (key) => {
      const fingerprint = createHash('sha256').update(key).digest('hex')
      await database.alone(() =>
        database.change('INSERT INTO signing_key (fingerprint) SELECT $1 WHERE NOT EXISTS (SELECT FROM signing_key)', [
          fingerprint,
        ]),
      )
      const [agreed] = await database.rows<{ fingerprint: string }>('SELECT fingerprint FROM signing_key')
      if (agreed?.fingerprint === fingerprint) return
      throw new CannotStart(
        `${dataFiles(dataDir).key} is not the key of the other servers of this board; copy theirs to it, or every session would end.`,
      )
    },
    close: async () => {
      await neighbours.close()
      await store.close()
    },
  }
}
