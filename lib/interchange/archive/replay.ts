import * as Y from 'yjs'
import { parseRecord } from '../../board/judge.ts'
import { LayoutFault, readRaw, type TouchedRecord, tableOf, touchedRecords } from '../../board/layout.ts'
import { type DocumentKind, type KindName, kindNames, kindsIn, type RecordOf } from '../../board/records.ts'
import type { Change } from '../../board/rules.ts'
import { marksOf, type SessionMark } from '../../board/session-marks.ts'
import type { LogLine } from './log-lines.ts'

/** A line of the log with what the store keeps beside it. */
export interface ReplayedLine extends LogLine {
  /** CRDT client ids that appear here for the first time */
  readonly clients: readonly number[]
  readonly marks: readonly SessionMark[]
}

export type Replay =
  | { readonly ok: true; readonly doc: Y.Doc; readonly lines: readonly ReplayedLine[] }
  /** `line` counts from 1 */
  | { readonly ok: false; readonly line: number; readonly problem: string }

/**
 * Plays the log of a document from its beginning and holds what it makes against layout and schemas, as the guard does with
 * every edit. Rights are not judged again: the board that wrote the log has judged them, and what it computed then another
 * version may compute differently.
 */
export function replayLog(kind: DocumentKind, log: readonly LogLine[]): Replay {
  const doc = new Y.Doc()
  for (const name of kindsIn(kind)) tableOf(doc, name)
  const records = new Map<string, RecordOf<KindName>>()
  const known = new Set<number>()
  const lines: ReplayedLine[] = []
  for (const [index, line] of log.entries()) {
    try {
      const clients = newClients(line.update, known)
      const changes = applied(doc, line.update).map((touched) => changeOf(doc, touched, records))
      refuseForeign(doc, kind)
      lines.push({ ...line, clients, marks: changes.flatMap(marksOf) })
    } catch (error) {
      return {
        ok: false,
        line: index + 1,
        problem: error instanceof Error ? error.message.slice(0, 300) : 'unreadable',
      }
    }
  }
  if (doc.store.pendingStructs !== null || doc.store.pendingDs !== null)
    return { ok: false, line: log.length, problem: 'an update that others build on is missing' }
  return { ok: true, doc, lines }
}

function newClients(update: Uint8Array, known: Set<number>): number[] {
  const fresh = [...new Set(Y.decodeUpdate(update).structs.map(({ id }) => id.client))].filter((id) => !known.has(id))
  for (const client of fresh) known.add(client)
  return fresh
}

function applied(doc: Y.Doc, update: Uint8Array): TouchedRecord[] {
  const touched = new Map<string, TouchedRecord>()
  let fault: unknown
  const collect = (transaction: Y.Transaction) => {
    try {
      if (transaction.subdocsAdded.size > 0) throw new LayoutFault('document', 'a document inside a document')
      for (const each of touchedRecords(doc, transaction)) touched.set(`${each.kind}/${each.id}`, each)
    } catch (error) {
      fault = error
    }
  }
  doc.on('afterTransaction', collect)
  Y.applyUpdate(doc, update)
  doc.off('afterTransaction', collect)
  if (fault !== undefined) throw fault
  return [...touched.values()]
}

function changeOf(doc: Y.Doc, { kind, id }: TouchedRecord, records: Map<string, RecordOf<KindName>>): Change {
  const key = `${kind}/${id}`
  const before = records.get(key)
  const raw = readRaw(doc, kind, id)
  if (raw === undefined) {
    records.delete(key)
    return { kind, id, before, after: undefined }
  }
  const parsed = parseRecord(kind, id, raw)
  if (!parsed.ok) throw new RangeError(`${key}: ${JSON.stringify(parsed.refused.facts)}`)
  records.set(key, parsed.record)
  return { kind, id, before, after: parsed.record }
}

function refuseForeign(doc: Y.Doc, kind: DocumentKind): void {
  const own: readonly string[] = kindsIn(kind)
  for (const root of doc.share.keys())
    if (!own.includes(root))
      throw new RangeError(
        kindNames.includes(root as KindName) ? `${root} belongs into the other document` : `no table ${root}`,
      )
}
