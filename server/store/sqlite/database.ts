import { closeSync, existsSync, openSync } from 'node:fs'
import Database from 'better-sqlite3'
import { migrations } from './migrations.ts'

export type Db = Database.Database

/** How long a statement waits for another process (the ticket command) to finish its own write. */
const busyTimeoutMs = 5_000

/**
 * Opens the file and brings its schema up to date.
 * @throws when the file cannot be written, is no database, or was written by a newer version of this program
 */
export function openDatabase(file: string): Db {
  // SQLite makes the files beside it with the same mode: nobody but the server's own user reads what is new.
  if (!existsSync(file)) closeSync(openSync(file, 'a', 0o600))
  const db = new Database(file, { timeout: busyTimeoutMs })
  try {
    db.pragma('journal_mode = WAL')
    db.pragma('synchronous = FULL')
    db.pragma('foreign_keys = ON')
    // An erased case must not be readable in the free pages of the file.
    db.pragma('secure_delete = ON')
    migrate(db)
    return db
  } catch (cause) {
    db.close()
    throw cause
  }
}

/** Writes the number of the schema as it stands: one page that goes through log and disk like any other. */
export function writeVersionAgain(db: Db): void {
  db.pragma(`user_version = ${Number(db.pragma('user_version', { simple: true }))}`)
}

function migrate(db: Db): void {
  const step = db.transaction(() => {
    const version = Number(db.pragma('user_version', { simple: true }))
    if (version > migrations.length) {
      throw new RangeError(
        `The database has schema version ${version}; this program knows versions up to ${migrations.length}. ` +
          'Start the version that wrote it, or a newer one.',
      )
    }
    for (const sql of migrations.slice(version)) db.exec(sql)
    db.pragma(`user_version = ${migrations.length}`)
  })
  // Immediate: two processes that open a new file at once must not both create the tables.
  step.immediate()
}
