import type * as Y from 'yjs'
import type { ParticipantId } from '../../lib/board/identity.ts'
import { tableOf } from '../../lib/board/layout.ts'
import { readRecord } from '../../lib/board/reading.ts'
import type { KindName, RecordOf } from '../../lib/board/records.ts'
import type { Change, TableView } from '../../lib/board/rules.ts'

type Table = Map<string, RecordOf<KindName>>

/** Whose the authors' ids are under which something was asked without a name. */
export type Unnamed = ReadonlyMap<ParticipantId, ParticipantId>

/** The parsed records of a document, as the guard's rules look at them. */
export class RecordTables implements TableView {
  private readonly tables = new Map<KindName, Table>()
  private readonly unnamed: Unnamed

  constructor(unnamed: Unnamed = new Map()) {
    this.unnamed = unnamed
  }

  personBehind(author: ParticipantId): ParticipantId {
    return this.unnamed.get(author) ?? author
  }

  fill(doc: Y.Doc, kinds: readonly KindName[]): void {
    this.tables.clear()
    for (const kind of kinds) {
      const table: Table = new Map()
      for (const id of tableOf(doc, kind).keys()) {
        const record = readRecord(doc, kind, id)
        if (record !== undefined) table.set(id, record)
      }
      this.tables.set(kind, table)
    }
  }

  /** Readers see these changes from now on. What is refused afterwards is dropped by filling the tables again. */
  write(changes: readonly Change[]): void {
    for (const { kind, id, after } of changes) this.put(kind, id, after)
  }

  private put(kind: KindName, id: string, record: RecordOf<KindName> | undefined): void {
    const table = this.table(kind)
    if (record === undefined) table.delete(id)
    else table.set(id, record)
  }

  get<K extends KindName>(kind: K, id: string): RecordOf<K> | undefined {
    return this.table(kind).get(id) as RecordOf<K> | undefined
  }

  count(kind: KindName): number {
    return this.table(kind).size
  }

  values<K extends KindName>(kind: K): Iterable<RecordOf<K>> {
    return this.table(kind).values() as Iterable<RecordOf<K>>
  }

  private table(kind: KindName): Table {
    const table = this.tables.get(kind)
    if (table === undefined) throw new RangeError(`table ${kind} is not in this document`)
    return table
  }
}
