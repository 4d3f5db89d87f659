import { createHash } from 'node:crypto'
import { type Table, type TableReader, tables } from './tables.ts'

/** SHA-256 that the records of a board give for its photographs, by case and id. */
export class NamedPictures {
  readonly #digests = new Map<string, string>()

  name(caseId: string, id: string, sha256: string): void {
    this.#digests.set(`${caseId}/${id}`, sha256)
  }

  /**
   * Holds the bytes that are kept against what the records say. Bytes without a record are no fault: a process that ended
   * between storing and writing leaves some, and nobody finds them.
   */
  async check(reader: TableReader, cases: ReadonlySet<string>, problems: string[]): Promise<void> {
    const missing = new Map(this.#digests)
    for await (const row of reader.rows(pictures, 'key')) {
      const [caseId, id, withdrawal, , bytes] = row
      const place = `${caseId}/${id}`
      if (!cases.has(String(caseId))) problems.push(`pictures: a row of case ${caseId}, which is not there`)
      const expected = missing.get(place)
      if (withdrawal !== null || expected === undefined) continue
      missing.delete(place)
      if (
        createHash('sha256')
          .update(bytes as Uint8Array)
          .digest('hex') !== expected
      )
        problems.push(`pictures: the bytes of ${place} are not those that its record names`)
    }
    for (const place of missing.keys()) problems.push(`pictures: the bytes of ${place} are missing`)
  }
}

const pictures = tables.find(({ name }) => name === 'pictures') as Table
