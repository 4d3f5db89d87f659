import Database from 'better-sqlite3'
import { keyOf, type Row, type Table, type TableReader, type TableWriter } from '../tables.ts'
import { walProblem } from './damage.ts'
import { openDatabase } from './database.ts'

/** @throws when the file is not there or is no database */
export function readSqliteTables(file: string): TableReader {
  const inLog = walProblem(file)
  const db = new Database(file, { readonly: true, fileMustExist: true })
  db.exec('BEGIN')
  return {
    rows: async function* (table, order) {
      const by = order === 'arrival' && table.keepsArrival ? 'rowid' : keyOf(table).join(', ')
      const sql = `SELECT ${table.columns.join(', ')} FROM ${table.name} ORDER BY ${by}`
      yield* db.prepare<[], Row>(sql).raw().iterate() as IterableIterator<Row>
    },
    damage: async () => {
      const found = db.pragma('integrity_check(20)') as { integrity_check: string }[]
      const inFile = found.map(({ integrity_check }) => integrity_check).filter((line) => line !== 'ok')
      return inLog === undefined ? inFile : [inLog, ...inFile]
    },
    close: async () => {
      db.close()
    },
  }
}

/** @throws when the file cannot be written or was written by a newer version */
export function writeSqliteTables(file: string): TableWriter {
  const db = openDatabase(file)
  db.exec('BEGIN IMMEDIATE')
  // A programme names the case that is on, which comes after it.
  db.pragma('defer_foreign_keys = ON')
  return {
    clear: async ({ name }) => {
      db.exec(`DELETE FROM ${name}`)
    },
    write: async ({ name, columns }: Table, rows) => {
      const places = columns.map(() => '?').join(', ')
      const insert = db.prepare(`INSERT INTO ${name} (${columns.join(', ')}) VALUES (${places})`)
      for (const row of rows) insert.run(...row)
    },
    finish: async () => {
      db.exec('COMMIT')
    },
    close: async () => {
      db.close()
    },
  }
}
