import { existsSync, statSync } from 'node:fs'
import Database from 'better-sqlite3'
import { findWalDamage } from './wal-damage.ts'

/** Above this size a start does not read the whole file; `npm run check-store` does. */
const checkedAtStartBytes = 256 * 2 ** 20

/** What is wrong with the write-ahead log beside a database, in words; undefined when nothing is. */
export function walProblem(file: string): string | undefined {
  const damage = findWalDamage(file)
  if (damage === undefined) return undefined
  const { frame, commits } = damage
  return `${file}-wal is damaged at frame ${frame}: ${commits} commits from there on cannot be read`
}

/**
 * What is wrong with a database that nobody has open yet, in words; undefined when nothing is, or no file is there. Asked
 * before SQLite opens it: that would take the damaged part of the log for its end, and write over it.
 */
export function problemBeforeOpening(file: string): string | undefined {
  if (!existsSync(file)) return undefined
  return walProblem(file) ?? fileProblem(file)
}

function fileProblem(file: string): string | undefined {
  if (statSync(file).size === 0 || statSync(file).size > checkedAtStartBytes) return undefined
  try {
    const db = new Database(file, { readonly: true, fileMustExist: true })
    try {
      const found = String(db.pragma('quick_check(1)', { simple: true }))
      return found === 'ok' ? undefined : `${file} is damaged: ${found.replaceAll('\n', ' ')}`
    } finally {
      db.close()
    }
  } catch (error) {
    if (isDamage(error)) return `${file} is damaged: ${error.message}`
    throw error
  }
}

const isDamage = (error: unknown): error is InstanceType<typeof Database.SqliteError> =>
  error instanceof Database.SqliteError && /^SQLITE_(CORRUPT|NOTADB)/.test(error.code)
