import { createHash } from 'node:crypto'
import { type Row, type Table, type TableReader, type TableWriter, tables, usualRowsAtOnce } from './tables.ts'

/** How many rows a table has, and a digest of what is in them. */
export interface TableDigest {
  readonly table: string
  readonly rows: number
  /** SHA-256, hexadecimal */
  readonly hash: string
}

/** Copies a whole board. The writer's database has to be empty. */
export async function copyTables(from: TableReader, to: TableWriter): Promise<void> {
  for (const table of tables) {
    if (table.startsFilled) await to.clear(table)
    let batch: Row[] = []
    for await (const row of from.rows(table, 'arrival')) {
      batch.push(row)
      if (batch.length < (table.rowsAtOnce ?? usualRowsAtOnce)) continue
      await to.write(table, batch)
      batch = []
    }
    await to.write(table, batch)
  }
  await to.finish()
}

/** The same for the same content, whichever keeper has it. */
export async function digestTables(reader: TableReader): Promise<TableDigest[]> {
  const digests: TableDigest[] = []
  for (const table of tables) digests.push(await digestOf(reader, table))
  return digests
}

async function digestOf(reader: TableReader, table: Table): Promise<TableDigest> {
  const hash = createHash('sha256')
  let rows = 0
  for await (const row of reader.rows(table, 'key')) {
    rows += 1
    // Bytes in hexadecimal, so that they cannot be taken for the end of a value.
    hash.update(JSON.stringify(row.map((value) => (value instanceof Uint8Array ? { hex: hexOf(value) } : value))))
    hash.update('\n')
  }
  return { table: table.name, rows, hash: hash.digest('hex') }
}

const hexOf = (bytes: Uint8Array): string => Buffer.from(bytes).toString('hex')

/** Names of the tables in which somebody has written. */
export const filled = (digests: readonly TableDigest[]): string[] =>
  digests.filter(({ rows }, index) => rows > 0 && tables[index]?.startsFilled !== true).map(({ table }) => table)

/** Names of the tables that differ. */
export function differing(one: readonly TableDigest[], other: readonly TableDigest[]): string[] {
  return one.filter(({ hash }, index) => other[index]?.hash !== hash).map(({ table }) => table)
}
