import { join } from 'node:path'
import Database from 'better-sqlite3'
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest'
import { demo } from '../../../server/demo/demo.ts'
import { checkTables } from '../../../server/store/check-tables.ts'
import { copyTables, differing, digestTables } from '../../../server/store/move-tables.ts'
import { migrations as postgresMigrations } from '../../../server/store/postgres/migrations.ts'
import { readPostgresTables, writePostgresTables } from '../../../server/store/postgres/table-access.ts'
import { openPostgresStore } from '../../../server/store/postgres-store.ts'
import { migrations as sqliteMigrations } from '../../../server/store/sqlite/migrations.ts'
import { readSqliteTables, writeSqliteTables } from '../../../server/store/sqlite/table-access.ts'
import { openSqliteStore } from '../../../server/store/sqlite-store.ts'
import { tables } from '../../../server/store/tables.ts'
import { TestPostgres } from '../../support/postgres.ts'
import { makeTemporaryFolder, removeFolder } from '../../support/temporary-folder.ts'

let postgres: TestPostgres
beforeAll(async () => {
  postgres = await TestPostgres.start()
})
afterAll(() => postgres.stop())

let folder: string
let file: string
let database: string
beforeEach(async () => {
  folder = await makeTemporaryFolder()
  file = join(folder, 'board.db')
  database = await postgres.newDatabase()
})
afterEach(() => removeFolder(folder))

const at = '2026-03-02T08:00:00.000Z'
const later = '2026-03-02T09:00:00.000Z'

/** The demo day with somebody invited twice, a ballot and a case on. */
async function writeBoard(path: string): Promise<void> {
  const store = await openSqliteStore(path)
  await demo.seed(store, new Date(at))
  const scope = { kind: 'programme', id: 'demo' } as const
  for (const id of ['zebra', 'ant']) {
    await store.createInvitation({
      id,
      tokenHash: id,
      label: id,
      role: 'panel',
      scope,
      createdAt: at,
      expiresAt: null,
      accessUntil: null,
    })
    await store.join({
      grant: { participant: 'guest', scope, role: 'panel', grantedAt: at, expiresAt: null, invitation: id },
      newParticipant: id === 'zebra' ? { id: 'guest', name: 'Gast – 客', affiliation: '', createdAt: at } : null,
      newSession: null,
    })
  }
  await store.castBallot({ caseId: 'demo-heron', vote: 'v', participant: 'guest', ballot: { option: 1 }, at })
  await store.closeBallots('demo-heron', 'v')
  await store.bringOn('demo', 'demo-heron', later)
  await store.close()
}

const withReader = async <T>(
  reader: Awaited<ReturnType<typeof readPostgresTables>>,
  work: (open: typeof reader) => Promise<T>,
): Promise<T> => {
  try {
    return await work(reader)
  } finally {
    await reader.close()
  }
}
const digestOfFile = (path: string) => withReader(readSqliteTables(path), digestTables)
const problemsOfFile = (path: string) => withReader(readSqliteTables(path), checkTables)

describe('the list of tables', () => {
  const listed = tables.flatMap(({ name, columns }) => columns.map((column) => `${name}.${column}`)).sort()

  it('is the whole schema in SQLite', async () => {
    await (await openSqliteStore(file)).close()
    const db = new Database(file)
    const found = db
      .prepare<[], { name: string }>(
        `SELECT t.name || '.' || c.name AS name FROM sqlite_master t JOIN pragma_table_info(t.name) c
         WHERE t.type = 'table' AND t.name NOT LIKE 'sqlite_%'`,
      )
      .all()
    db.close()
    expect(found.map(({ name }) => name).sort()).toEqual(listed)
  })

  it('is the schema in PostgreSQL, but for what follows from it or lasts no longer than a process', async () => {
    await (await openPostgresStore(postgres.urlOf(database))).close()
    const found = await postgres.ask(
      database,
      `SELECT table_name || '.' || column_name AS name FROM information_schema.columns
       WHERE table_schema = 'public'
         AND table_name NOT IN ('documents', 'nodes', 'attendance', 'signing_key', 'schema_version')
         AND (table_name, column_name) <> ('grants', 'place')`,
    )
    expect(found.map(({ name }) => name).sort()).toEqual(listed)
  })
})

describe('moving a board', () => {
  it('from SQLite to PostgreSQL and back leaves nothing out and changes nothing', async () => {
    await writeBoard(file)
    const before = await digestOfFile(file)
    expect(before.find(({ table }) => table === 'updates')?.rows).toBeGreaterThan(50)
    const there = await writePostgresTables(postgres.urlOf(database))
    await withReader(readSqliteTables(file), (from) => copyTables(from, there))
    await there.close()
    const arrived = await readPostgresTables(postgres.urlOf(database))
    expect(await digestTables(arrived)).toEqual(before)
    expect(await checkTables(arrived)).toEqual([])
    const back = join(folder, 'back.db')
    const target = writeSqliteTables(back)
    await copyTables(arrived, target)
    await Promise.all([target.close(), arrived.close()])
    expect(differing(before, await digestOfFile(back))).toEqual([])
    expect(await digestOfFile(back)).toEqual(before)
  })

  it('gives a board that goes on: the log is appended to, and the newest grant is still the newest', async () => {
    await writeBoard(file)
    const there = await writePostgresTables(postgres.urlOf(database))
    await withReader(readSqliteTables(file), (from) => copyTables(from, there))
    await there.close()
    const [sqlite, moved] = [await openSqliteStore(file), await openPostgresStore(postgres.urlOf(database))]
    const last = (await sqlite.log('record.demo-heron', 0, 10_000)).at(-1)?.seq ?? 0
    const update = { document: 'record.demo-heron', update: new Uint8Array([0, 0]), author: 'guest', at: later }
    expect(await moved.append([{ ...update, role: 'panel', clients: [] }], last)).toEqual([last + 1])
    expect(await moved.listGrants('guest')).toEqual(await sqlite.listGrants('guest'))
    expect((await moved.listProgrammes())[0]?.onNow).toEqual({ isOn: true, lastOn: 'demo-heron', since: later })
    await Promise.all([sqlite.close(), moved.close()])
  })
})

describe('checking a board', () => {
  beforeEach(() => writeBoard(file))

  it('finds nothing in a whole one', async () => {
    // The ballot's case is there; the log, its client ids and its records are those of the demo.
    expect(await problemsOfFile(file)).toEqual([])
  })

  it.each([
    [
      'a gap in the log',
      "DELETE FROM updates WHERE document = 'record.demo-heron' AND seq = 3",
      /no update between 2 and 4/,
    ],
    [
      'bytes that are no update',
      "UPDATE updates SET bytes = x'ffff07' WHERE document = 'floor.demo-heron' AND seq = 2",
      /floor.demo-heron: update 2 cannot be read/,
    ],
    [
      'somebody else’s client id',
      "UPDATE client_owners SET participant = 'mallory' WHERE document = 'record.demo-heron'",
      /record.demo-heron: update 1 writes as client \d+, which is not its author's/,
    ],
    [
      'a snapshot of something else',
      "INSERT INTO snapshots SELECT document, 4, (SELECT bytes FROM updates WHERE document = 'record.demo-heron' AND seq = 1) FROM updates WHERE document = 'record.demo-heron' AND seq = 4",
      /the snapshot of number 4 is not what the log makes/,
    ],
    [
      'a checkpoint beyond the log',
      "INSERT INTO checkpoints VALUES ('record.demo-heron', 9999, x'0000')",
      /a checkpoint of number 9999, but the log ends/,
    ],
    [
      'a mark of nothing',
      "INSERT INTO marks VALUES ('record.demo-heron', 9999, 0, 'k', 'r', 's')",
      /a mark of number 9999/,
    ],
    [
      'a ballot of nowhere',
      "INSERT INTO ballots VALUES ('gone', 'v', 'guest', 0, NULL, '')",
      /ballots: a row of case gone, which is not there/,
    ],
    [
      'a log without a case',
      "UPDATE updates SET document = 'record.gone' WHERE document = 'record.demo-plover'",
      /record.gone: a log, but no case/,
    ],
    [
      'a photograph that was exchanged',
      "UPDATE pictures SET bytes = x'89504e47' WHERE id = 'photo-niche'",
      /the bytes of demo-heron\/photo-niche are not those that its record names/,
    ],
    [
      'a photograph that is lost',
      "DELETE FROM pictures WHERE id = 'photo-model'",
      /the bytes of demo-plover\/photo-model are missing/,
    ],
    [
      'a photograph of nowhere',
      "INSERT INTO pictures VALUES ('gone', 'p', NULL, 'image/png', x'00')",
      /pictures: a row of case gone, which is not there/,
    ],
  ])('names %s', async (_, sql, line) => {
    const db = new Database(file)
    db.exec(sql)
    db.close()
    expect((await problemsOfFile(file)).join('\n')).toMatch(line)
  })

  it('names a head that is not that of its log', async () => {
    const there = await writePostgresTables(postgres.urlOf(database))
    await withReader(readSqliteTables(file), (from) => copyTables(from, there))
    await there.close()
    await postgres.ask(database, "UPDATE documents SET seq = seq + 1 WHERE document = 'record.demo-heron'")
    const found = await withReader(await readPostgresTables(postgres.urlOf(database)), checkTables)
    expect(found).toEqual(['the head of record.demo-heron is not the last number of its log'])
  })
})

describe('a board of an earlier version', () => {
  const rows = [
    `INSERT INTO updates VALUES ('record.a', 1, @bytes, 'anna', 'team', '${at}')`,
    `INSERT INTO client_owners VALUES ('record.a', 7, 'anna', 'team')`,
    `INSERT INTO programmes (id, label, created_at) VALUES ('day', 'Day', '${at}')`,
    `INSERT INTO cases (id, programme, label, rank, created_at, updated_at) VALUES ('a', 'day', 'A', 'a0', '${at}', '${at}')`,
  ]

  it.each(sqliteMigrations.map((_, index) => index + 1))(
    'in SQLite, version %i, is brought up to date',
    async (version) => {
      const db = new Database(file)
      for (const sql of sqliteMigrations.slice(0, version)) db.exec(sql)
      db.pragma(`user_version = ${version}`)
      for (const sql of rows) db.exec(sql.replace('@bytes', "x'010203'"))
      db.close()
      const store = await openSqliteStore(file)
      await expectBoard(store)
      await store.close()
    },
  )

  it.each(postgresMigrations.map((_, index) => index + 1))(
    'in PostgreSQL, version %i, is brought up to date',
    async (version) => {
      await postgres.ask(database, 'CREATE TABLE schema_version (version integer NOT NULL)')
      await postgres.ask(database, `INSERT INTO schema_version VALUES (${version})`)
      for (const sql of postgresMigrations.slice(0, version)) await postgres.ask(database, sql)
      for (const sql of rows) await postgres.ask(database, sql.replace('@bytes', "'\\x010203'::bytea"))
      await postgres.ask(database, "INSERT INTO documents VALUES ('record.a', 1)")
      const store = await openPostgresStore(postgres.urlOf(database))
      await expectBoard(store)
      await store.close()
    },
  )

  async function expectBoard(store: Awaited<ReturnType<typeof openSqliteStore>>): Promise<void> {
    const { updates, clientOwners } = await store.load('record.a')
    expect(updates.map(({ update }) => Array.from(update))).toEqual([[1, 2, 3]])
    expect(clientOwners).toEqual(new Map([[7, 'anna']]))
    expect(await store.listCases()).toMatchObject([{ id: 'a', plannedAt: null, breakBefore: '' }])
    const entry = { document: 'record.a', update: new Uint8Array([4]), author: 'bo', role: 'team', at: later } as const
    expect(await store.append([{ ...entry, clients: [8] }], 1)).toEqual([2])
    await store.bringOn('day', 'a', later)
    await store.castBallot({ caseId: 'a', vote: 'v', participant: 'anna', ballot: { option: 0 }, at })
  }
})
