import { copyFile, mkdir, rm } from 'node:fs/promises'
import { resolve } from 'node:path'
import Database from 'better-sqlite3'
import { CannotStart } from '../cannot-start.ts'
import { dataFiles } from '../data-folder.ts'
import { readSettings } from '../settings.ts'
import { checkTables } from '../store/check-tables.ts'
import { digestTables } from '../store/move-tables.ts'
import { readSqliteTables } from '../store/sqlite/table-access.ts'
import { runCommand } from './command.ts'

const usage = 'Usage: npm run backup -- <new folder>'

// Works while the server runs: SQLite's own backup copies a state of one moment, and starts again where it was overtaken.
await runCommand(async () => {
  const [folder] = process.argv.slice(2)
  if (folder === undefined) throw new CannotStart(usage)
  const { dataDir, databaseUrl } = readSettings(process.env)
  if (databaseUrl !== undefined)
    throw new CannotStart('The board is in PostgreSQL: back it up with pg_dump --format=custom, and signing.key once.')
  const [from, to] = [dataFiles(dataDir), dataFiles(resolve(folder))]
  await mkdir(resolve(folder), { mode: 0o700 }).catch((cause: unknown) => {
    throw new CannotStart(`${resolve(folder)} is there already or cannot be made; give a new folder.`, { cause })
  })
  try {
    await backUp(from.store, to.store)
    await copyFile(from.key, to.key)
    await verify(to.store)
  } catch (error) {
    await rm(resolve(folder), { recursive: true, force: true })
    throw error
  }
})

async function backUp(from: string, to: string): Promise<void> {
  const db = new Database(from, { readonly: true, fileMustExist: true })
  try {
    await db.backup(to)
  } finally {
    db.close()
  }
  // In one file, so that nothing beside it can be forgotten.
  const copy = new Database(to)
  copy.pragma('journal_mode = DELETE')
  copy.close()
}

/** A copy that was never read is none. */
async function verify(file: string): Promise<void> {
  const reader = readSqliteTables(file)
  try {
    const problems = await checkTables(reader)
    if (problems.length > 0) throw new CannotStart(`The copy is not whole:\n${problems.join('\n')}`)
    const rows = (await digestTables(reader)).reduce((sum, table) => sum + table.rows, 0)
    console.log(
      `${file}: ${rows} rows, read back and whole. To restore, stop the server and put both files into DATA_DIR.`,
    )
  } finally {
    await reader.close()
  }
}
