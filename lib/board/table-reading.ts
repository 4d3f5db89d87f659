import { equalityDeep } from 'lib0/function'
import * as Y from 'yjs'
import { tableOf } from './layout.ts'
import { type Reading, readRecord } from './reading.ts'
import type { KindName, RecordOf } from './records.ts'

/**
 * All valid records of a kind, read once for however many subscribers. An edit parses again only the records that it
 * touched, and every other record keeps its identity, so that a row is drawn again only when it changed.
 */
export class TableReading<K extends KindName> implements Reading<readonly RecordOf<K>[]> {
  private readonly doc: Y.Doc
  private readonly kind: K
  private readonly listeners = new Set<() => void>()
  private readonly records = new Map<string, RecordOf<K>>()
  private all: readonly RecordOf<K>[] = []

  constructor(doc: Y.Doc, kind: K) {
    this.doc = doc
    this.kind = kind
    this.readAll()
  }

  readonly subscribe = (notify: () => void): (() => void) => {
    if (this.listeners.size === 0) {
      tableOf(this.doc, this.kind).observeDeep(this.onEvents)
      this.readAll() // what changed while nobody listened
    }
    this.listeners.add(notify)
    return () => {
      this.listeners.delete(notify)
      if (this.listeners.size === 0) tableOf(this.doc, this.kind).unobserveDeep(this.onEvents)
    }
  }

  readonly getSnapshot = (): readonly RecordOf<K>[] => this.all

  /** One record; undefined when it is absent or (in a copy that diverged) not valid. */
  readonly record = (id: string): RecordOf<K> | undefined => this.records.get(id)

  private readonly onEvents = (events: readonly Y.YEvent<Y.AbstractType<unknown>>[]): void => {
    const ids = new Set(events.flatMap(touchedIds))
    if (!this.readAgain(ids)) return
    for (const notify of [...this.listeners]) notify()
  }

  private readAll(): void {
    this.readAgain(new Set([...this.records.keys(), ...tableOf(this.doc, this.kind).keys()]))
  }

  /** @returns whether anything is different now */
  private readAgain(ids: ReadonlySet<string>): boolean {
    let isChanged = false
    for (const id of ids) {
      const record = readRecord(this.doc, this.kind, id)
      if (equalityDeep(this.records.get(id), record)) continue
      if (record === undefined) this.records.delete(id)
      else this.records.set(id, record)
      isChanged = true
    }
    if (isChanged) this.all = [...this.records.values()]
    return isChanged
  }
}

/** Records that an event of a table, or of something below it, belongs to. */
function touchedIds(event: Y.YEvent<Y.AbstractType<unknown>>): string[] {
  const [id] = event.path
  if (id !== undefined) return [String(id)]
  return event instanceof Y.YMapEvent ? [...event.keysChanged].filter((key) => typeof key === 'string') : []
}

const readings = new WeakMap<Y.Doc, Map<KindName, unknown>>()

/** The reading of a table, the same one for everybody who asks. */
export function tableReading<K extends KindName>(doc: Y.Doc, kind: K): TableReading<K> {
  let ofDoc = readings.get(doc)
  if (ofDoc === undefined) {
    ofDoc = new Map()
    readings.set(doc, ofDoc)
  }
  let reading = ofDoc.get(kind) as TableReading<K> | undefined
  if (reading === undefined) {
    reading = new TableReading(doc, kind)
    ofDoc.set(kind, reading)
  }
  return reading
}
