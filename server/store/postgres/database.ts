import pg from 'pg'
import { StoreConflict, StoreOutage } from '../store.ts'
import { migrations } from './migrations.ts'

/** How long anything may take before the database counts as out of reach. */
export const answerWithinMs = 5_000

/** Advisory locks of ours; any numbers, as long as they differ. */
const lockIds = { opening: 7_461_001 } as const

const connections = 8

/** Runs statements; every error that it throws is a StoreConflict or a StoreOutage. */
export interface Db {
  rows<Row>(sql: string, values?: readonly unknown[]): Promise<Row[]>
  /** @returns how many rows the statement changed */
  change(sql: string, values?: readonly unknown[]): Promise<number>
}

export interface Database extends Db {
  /** All of it or nothing; `work` gets the connection that it has to use. */
  whole<T>(work: (db: Db) => Promise<T>): Promise<T>
  /** Runs `work` while no other process runs one. */
  alone<T>(work: () => Promise<T>): Promise<T>
  close(): Promise<void>
}

/** How each connection to the database is made: short of patience, and with numbers as numbers. */
export const connectionSettings = (url: string): pg.ClientConfig => ({
  connectionString: url,
  application_name: 'promontory',
  connectionTimeoutMillis: answerWithinMs,
  query_timeout: answerWithinMs,
  statement_timeout: answerWithinMs,
  idle_in_transaction_session_timeout: answerWithinMs,
  keepAlive: true,
  types: { getTypeParser: typeParser as typeof pg.types.getTypeParser },
})

/** Counts and client ids come as 64-bit integers, all of them far below 2^53. */
function typeParser(oid: number, format?: 'text' | 'binary'): unknown {
  return oid === pg.types.builtins.INT8 ? Number : pg.types.getTypeParser(oid, format as 'text')
}

/**
 * Connects and brings the schema up to date.
 * @throws StoreOutage when the database cannot be reached or was written by a newer version of this program
 */
export async function openDatabase(url: string): Promise<Database> {
  const pool = new pg.Pool({ ...connectionSettings(url), max: connections })
  // A connection that breaks while nobody uses it is replaced by the next one that is asked for.
  pool.on('error', () => undefined)
  const database = databaseOver(pool)
  try {
    await database.alone(() => database.whole(migrate))
    return database
  } catch (cause) {
    await pool.end()
    throw cause
  }
}

function databaseOver(pool: pg.Pool): Database {
  const whole = <T>(work: (db: Db) => Promise<T>) =>
    withClient(pool, async (client) => {
      const db = dbOver(client)
      await db.change('BEGIN')
      const result = await work(db)
      await db.change('COMMIT')
      return result
    })
  return {
    ...dbOver(pool),
    whole,
    alone: (work) =>
      withClient(pool, async (client) => {
        const db = dbOver(client)
        await db.rows('SET statement_timeout = 0')
        await waitFor(db)
        const result = await work()
        await db.rows(`SELECT pg_advisory_unlock(${lockIds.opening})`)
        await db.rows(`SET statement_timeout = ${answerWithinMs}`)
        return result
      }),
    close: () => pool.end(),
  }
}

/** Asked for again and again, since whoever holds it may take longer than one statement may. */
async function waitFor(db: Db): Promise<void> {
  for (;;) {
    const [answer] = await db.rows<{ got: boolean }>(`SELECT pg_try_advisory_lock(${lockIds.opening}) AS got`)
    if (answer?.got === true) return
    await db.rows('SELECT pg_sleep(0.1)')
  }
}

/** A connection on which anything failed is closed: what it was in the middle of ends with it. */
async function withClient<T>(pool: pg.Pool, work: (client: pg.PoolClient) => Promise<T>): Promise<T> {
  const client = await pool.connect().catch((error: unknown) => {
    throw faultOf(error)
  })
  try {
    const result = await work(client)
    client.release()
    return result
  } catch (error) {
    client.release(true)
    throw error
  }
}

function dbOver(queryable: pg.Pool | pg.PoolClient): Db {
  const query = async (sql: string, values: readonly unknown[]) => {
    try {
      return await queryable.query(sql, values.map(withoutNul))
    } catch (error) {
      throw faultOf(error)
    }
  }
  return {
    rows: async <Row>(sql: string, values: readonly unknown[] = []) => (await query(sql, values)).rows as Row[],
    change: async (sql, values = []) => (await query(sql, values)).rowCount ?? 0,
  }
}

/** PostgreSQL has no text with NUL in it, SQLite has. Nobody can read it on a page. */
const withoutNul = (value: unknown): unknown => (typeof value === 'string' ? value.replaceAll('\0', '') : value)

/** Class 23 of SQLSTATE is "integrity constraint violation". */
export function faultOf(error: unknown): Error {
  if (error instanceof StoreConflict || error instanceof StoreOutage) return error
  const code = error instanceof Error && 'code' in error ? String(error.code) : ''
  const why = error instanceof Error ? error.message || code : String(error)
  if (code.startsWith('23')) return new StoreConflict(why, { cause: error })
  return new StoreOutage(`The database does not answer as it should: ${why}`, { cause: error })
}

async function migrate(db: Db): Promise<void> {
  await db.change('CREATE TABLE IF NOT EXISTS schema_version (version integer NOT NULL)')
  const [found] = await db.rows<{ version: number }>('SELECT version FROM schema_version')
  const version = found?.version ?? 0
  if (version > migrations.length) {
    throw new StoreOutage(
      `The database has schema version ${version}; this program knows versions up to ${migrations.length}. ` +
        'Start the version that wrote it, or a newer one.',
    )
  }
  for (const sql of migrations.slice(version)) await db.change(sql)
  if (found === undefined) await db.change('INSERT INTO schema_version (version) VALUES ($1)', [migrations.length])
  else await db.change('UPDATE schema_version SET version = $1', [migrations.length])
}
