import { existsSync, mkdirSync } from 'node:fs'
import { dirname, resolve } from 'node:path'
import { CannotStart } from '../cannot-start.ts'
import { dataFiles } from '../data-folder.ts'
import { openLink, saysHowItIsKept } from '../store/postgres/link-secrecy.ts'
import { readPostgresTables, writePostgresTables } from '../store/postgres/table-access.ts'
import { readSqliteTables, writeSqliteTables } from '../store/sqlite/table-access.ts'
import type { TableReader, TableWriter } from '../store/tables.ts'

/** Where a board is kept, as somebody names it on the command line: a PostgreSQL address, a data folder, or a database file. */
export interface StorePlace {
  /** For people: without a password. */
  readonly name: string
  /** @throws CannotStart when there is no board */
  read(): Promise<TableReader>
  /** @throws CannotStart when its folder is not there and cannot be made */
  write(): Promise<TableWriter>
}

export function storePlace(text: string): StorePlace {
  if (/^postgres(ql)?:\/\//.test(text)) {
    if (!URL.canParse(text))
      throw new CannotStart('This is no address of a PostgreSQL database; give one as README.md does.')
    if (!saysHowItIsKept(text)) throw new CannotStart(`The address of the database ${openLink}`)
    return { name: withoutPassword(text), read: () => readPostgresTables(text), write: () => writePostgresTables(text) }
  }
  const file = text.endsWith('.db') ? resolve(text) : dataFiles(resolve(text)).store
  return {
    name: file,
    read: async () => {
      if (!existsSync(file)) throw new CannotStart(`There is no board in ${file}.`)
      return readSqliteTables(file)
    },
    write: async () => {
      makeFolder(dirname(file))
      return writeSqliteTables(file)
    },
  }
}

function makeFolder(folder: string): void {
  if (existsSync(folder)) return
  try {
    mkdirSync(folder, { mode: 0o700 })
  } catch (cause) {
    throw new CannotStart(`The folder ${folder} is not there and cannot be made; choose one in a folder that exists.`, {
      cause,
    })
  }
}

function withoutPassword(address: string): string {
  const url = new URL(address)
  url.password = ''
  return url.href
}
