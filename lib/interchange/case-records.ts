import type * as Y from 'yjs'
import { readTable } from '../board/reading.ts'
import { type KindName, kindsIn, type RecordOf } from '../board/records.ts'
import type { TableView } from '../board/rules.ts'

/** Every record of a case, by kind, in order of id. */
export type CaseRecords = { readonly [K in KindName]: readonly RecordOf<K>[] }

/** Reads both documents of a case. What does not parse (nothing, behind the guard) is left out. */
export function readCaseRecords(record: Y.Doc, floor: Y.Doc): CaseRecords {
  const tables = (doc: Y.Doc, kinds: readonly KindName[]) =>
    kinds.map((kind) => [kind, readTable(doc, kind).sort(byId)] as const)
  return Object.fromEntries([
    ...tables(record, kindsIn('record')),
    ...tables(floor, kindsIn('floor')),
  ]) as unknown as CaseRecords
}

const byId = (a: { readonly id: string }, b: { readonly id: string }): number => (a.id < b.id ? -1 : 1)

/** As `readCaseRecords`, from the tables of a guard that have been parsed already. */
export function recordsInTables(record: TableView, floor: TableView): CaseRecords {
  const tables = (view: TableView, kinds: readonly KindName[]) =>
    kinds.map((kind) => [kind, [...view.values(kind)].sort(byId)] as const)
  return Object.fromEntries([
    ...tables(record, kindsIn('record')),
    ...tables(floor, kindsIn('floor')),
  ]) as unknown as CaseRecords
}
