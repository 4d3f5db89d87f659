import { generateKeyBetween } from 'fractional-indexing'
import { equalityDeep } from 'lib0/function'
import * as Y from 'yjs'
import type { ParticipantId, RecordId } from '../identity.ts'
import { onlyId } from '../identity.ts'
import { tableOf } from '../layout.ts'
import { byRank } from '../reading.ts'
import { type KindName, kindOf, type RecordOf } from '../records.ts'
import { fragmentOf, type RichText } from '../rich-text.ts'

/** Who writes, and where time and identifiers come from. */
export interface Pen {
  readonly participant: ParticipantId
  now(): Date
  newId(): RecordId
  /** how late the writer sees the operation, ms; undefined where it is not measured */
  videoDelayMs?(): number | undefined
}

export type Content<K extends KindName> = Omit<RecordOf<K>, 'id' | 'author' | 'at'>

const stampOf = (pen: Pen) => ({ author: pen.participant, at: pen.now().toISOString() })

/** Adds a record under a new id (or the one given) in one transaction. */
export function addRecord<K extends KindName>(
  doc: Y.Doc,
  pen: Pen,
  kind: K,
  content: Content<K>,
  id: RecordId = pen.newId(),
): RecordId {
  putRecord(doc, kind, { ...content, id, ...stampOf(pen) } as RecordOf<K>)
  return id
}

/** As `addRecord`, for what is said about the operation: with the moment of it that the writer was looking at, where known. */
export function addRemark<K extends 'questions' | 'backings' | 'annotations'>(
  doc: Y.Doc,
  pen: Pen,
  kind: K,
  content: Omit<Content<K>, 'pictureAt'>,
  id: RecordId = pen.newId(),
): RecordId {
  const stamp = stampOf(pen)
  const delayMs = pen.videoDelayMs?.()
  const picture =
    delayMs === undefined ? {} : { pictureAt: new Date(Date.parse(stamp.at) - Math.round(delayMs)).toISOString() }
  putRecord(doc, kind, { ...content, id, ...stamp, ...picture } as RecordOf<K>)
  return id
}

/** Writes a whole record with the stamp it carries: what an import or a seed brings along. */
export function putRecord<K extends KindName>(doc: Y.Doc, kind: K, record: RecordOf<K>): void {
  doc.transact(() => tableOf(doc, kind).set(record.id, sharedRecord(kind, record)))
}

/** Changes fields of a record; `undefined` removes an optional field. Fields that are equal are not written again. */
export function changeRecord<K extends KindName>(
  doc: Y.Doc,
  kind: K,
  id: RecordId,
  patch: Partial<{ [F in keyof RecordOf<K>]: RecordOf<K>[F] | undefined }>,
): void {
  const record = recordMap(doc, kind, id)
  doc.transact(() => changeFields(record, patch))
}

function changeFields(record: Y.Map<unknown>, patch: Readonly<Record<string, unknown>>): void {
  for (const [field, value] of Object.entries(patch)) {
    if (value === undefined) record.delete(field)
    else if (!equalityDeep(record.get(field), value)) record.set(field, value)
  }
}

export function removeRecord(doc: Y.Doc, kind: KindName, id: RecordId): void {
  tableOf(doc, kind).delete(id)
}

/** Writes the record that there is one of: makes it or changes its fields, and renews its stamp. */
export function writeSingle<K extends KindName>(doc: Y.Doc, pen: Pen, kind: K, content: Content<K>): void {
  doc.transact(() => {
    if (tableOf(doc, kind).has(onlyId))
      changeFields(recordMap(doc, kind, onlyId), withAbsent(doc, kind, { ...content, ...stampOf(pen) }))
    else addRecord(doc, pen, kind, content, onlyId)
  })
}

/** The content, with `undefined` for every field that stands in the document and not in it. */
function withAbsent(doc: Y.Doc, kind: KindName, content: Record<string, unknown>): Record<string, unknown> {
  const absent = [...recordMap(doc, kind, onlyId).keys()].filter((field) => field !== 'id' && !(field in content))
  return { ...content, ...Object.fromEntries(absent.map((field) => [field, undefined])) }
}

/** @throws RangeError when there is no such record in this copy */
export function recordMap(doc: Y.Doc, kind: KindName, id: RecordId): Y.Map<unknown> {
  const record = tableOf(doc, kind).get(id)
  if (!(record instanceof Y.Map)) throw new RangeError(`no record ${id} in ${kind}`)
  return record
}

function sharedRecord(kind: KindName, content: Record<string, unknown>): Y.Map<unknown> {
  const nested = kindOf(kind).nested ?? {}
  const record = new Y.Map<unknown>()
  for (const [field, value] of Object.entries(content)) {
    if (value === undefined) continue
    if (nested[field] === 'map') record.set(field, new Y.Map(Object.entries(value as object)))
    else if (nested[field] === 'text') record.set(field, fragmentOf(value as RichText))
    else record.set(field, value)
  }
  return record
}

/** A rank after the last of these records. */
export function rankAtEnd(records: readonly { readonly rank: string; readonly id: string }[]): string {
  return generateKeyBetween([...records].sort(byRank).at(-1)?.rank ?? null, null)
}

/** A rank between two neighbours; absent ones are the ends. Equal neighbours (made at once by two people) give a rank just after. */
export function rankBetween(before: string | undefined, after: string | undefined): string {
  const apart = before === undefined || after === undefined || before < after
  return generateKeyBetween(before ?? null, apart ? (after ?? null) : null)
}
