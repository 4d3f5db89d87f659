import pg from 'pg'
import {
  keyOf,
  type Row,
  type Table,
  type TableReader,
  type TableWriter,
  usualRowsAtOnce,
  type Value,
} from '../tables.ts'
import { connectionSettings, faultOf, openDatabase } from './database.ts'

/** A connection for work on the whole board, which may take its time. */
async function connect(url: string): Promise<pg.Client> {
  const {
    query_timeout: _,
    statement_timeout: __,
    idle_in_transaction_session_timeout: ___,
    ...rest
  } = connectionSettings(url)
  const client = new pg.Client(rest)
  await client.connect().catch((error: unknown) => {
    throw faultOf(error)
  })
  return client
}

/** @throws StoreOutage when the database cannot be reached */
export async function readPostgresTables(url: string): Promise<TableReader> {
  const client = await connect(url)
  await client.query('BEGIN ISOLATION LEVEL REPEATABLE READ READ ONLY')
  return {
    rows: async function* ({ name, columns, keepsArrival, keyLength, rowsAtOnce = usualRowsAtOnce }, order) {
      const by = order === 'arrival' && keepsArrival ? 'place' : keyOf({ name, columns, keyLength }).join(', ')
      await client.query(`DECLARE rows CURSOR FOR SELECT ${columns.join(', ')} FROM ${name} ORDER BY ${by}`)
      for (;;) {
        const { rows } = await client.query<Value[]>({ text: `FETCH ${rowsAtOnce} FROM rows`, rowMode: 'array' })
        yield* rows
        if (rows.length < rowsAtOnce) break
      }
      await client.query('CLOSE rows')
    },
    damage: async () => {
      const { rows } = await client.query<{ document: string }>(
        `SELECT coalesce(d.document, u.document) AS document
         FROM documents d FULL JOIN (SELECT document, max(seq) AS seq FROM updates GROUP BY document) u USING (document)
         WHERE coalesce(d.seq, 0) <> coalesce(u.seq, 0)`,
      )
      return rows.map(({ document }) => `the head of ${document} is not the last number of its log`)
    },
    close: () => client.end(),
  }
}

/** @throws StoreOutage when the database cannot be reached or was written by a newer version */
export async function writePostgresTables(url: string): Promise<TableWriter> {
  await (await openDatabase(url)).close()
  const client = await connect(url)
  await client.query('BEGIN')
  // A programme names the case that is on, which comes after it.
  await client.query('SET CONSTRAINTS ALL DEFERRED')
  return {
    clear: async ({ name }) => {
      await client.query(`DELETE FROM ${name}`)
    },
    write: (table, rows) => insertRows(client, table, rows),
    finish: async () => {
      await client.query(
        'INSERT INTO documents (document, seq) SELECT document, max(seq) FROM updates GROUP BY document',
      )
      await client.query('COMMIT')
    },
    close: () => client.end(),
  }
}

async function insertRows(client: pg.Client, { name, columns }: Table, rows: readonly Row[]): Promise<void> {
  for (const row of rows) {
    const places = columns.map((_, index) => `$${index + 1}`).join(', ')
    await client.query({
      name: `insert into ${name}`,
      text: `INSERT INTO ${name} (${columns.join(', ')}) VALUES (${places})`,
      values: [...row],
    })
  }
}
