import type * as Y from 'yjs'
import { parseRecord } from './judge.ts'
import { LayoutFault, readRaw, tableOf } from './layout.ts'
import type { KindName, RecordOf } from './records.ts'

/** A subscription with a stable snapshot, for React's `useSyncExternalStore` and for tests. */
export interface Reading<T> {
  subscribe(notify: () => void): () => void
  getSnapshot(): T
}

/** One record, parsed; undefined when absent or (in a copy that diverged) not valid. */
export function readRecord<K extends KindName>(doc: Y.Doc, kind: K, id: string): RecordOf<K> | undefined {
  try {
    const raw = readRaw(doc, kind, id)
    if (raw === undefined) return undefined
    const parsed = parseRecord(kind, id, raw)
    return parsed.ok ? (parsed.record as RecordOf<K>) : undefined
  } catch (error) {
    if (error instanceof LayoutFault) return undefined
    throw error
  }
}

/** All records of a kind, in no particular order. */
export function readTable<K extends KindName>(doc: Y.Doc, kind: K): RecordOf<K>[] {
  const records: RecordOf<K>[] = []
  for (const id of tableOf(doc, kind).keys()) {
    const record = readRecord(doc, kind, id)
    if (record !== undefined) records.push(record)
  }
  return records
}

/** Order of records that carry a rank; equal ranks (two people at once) fall back to the id, the same for everyone. */
export function byRank(
  a: { readonly rank: string; readonly id: string },
  b: { readonly rank: string; readonly id: string },
): number {
  if (a.rank !== b.rank) return a.rank < b.rank ? -1 : 1
  return a.id < b.id ? -1 : 1
}
