import Database from 'better-sqlite3'
import { CannotStart } from './cannot-start.ts'
import { dataFiles } from './data-folder.ts'

/**
 * Keeps a second server out of a data folder: two would each have their own copy of the documents. The lock is the
 * operating system's, held through a database that is otherwise empty, so it ends with the process however that ends.
 * @throws CannotStart when another server holds it
 */
export function lockDataDir(dataDir: string): () => void {
  const db = new Database(dataFiles(dataDir).lock, { timeout: 0 })
  try {
    db.pragma('locking_mode = EXCLUSIVE')
    db.exec('BEGIN EXCLUSIVE')
    return () => db.close()
  } catch (cause) {
    db.close()
    if (!(cause instanceof Database.SqliteError && cause.code.startsWith('SQLITE_BUSY'))) throw cause
    throw new CannotStart(
      `Another server is using the data in ${dataDir}; stop it, or set DATA_DIR to another folder.`,
      {
        cause,
      },
    )
  }
}
