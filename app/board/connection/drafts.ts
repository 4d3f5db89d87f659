import * as Y from 'yjs'
import * as z from 'zod/mini'
import {
  addRecord,
  type Content,
  changeRecord,
  type Pen,
  putRecord,
  recordMap,
  writeSingle,
} from '@/lib/board/edits/writing.ts'
import { Moment, onlyId, RecordId } from '@/lib/board/identity.ts'
import { LayoutFault, type RawRecord, readRaw, tableOf } from '@/lib/board/layout.ts'
import { type KindName, kindNames, kindOf, type RecordOf } from '@/lib/board/records.ts'
import type { Refusal } from '@/lib/board/refusals.ts'
import { plainText, RichText } from '@/lib/board/rich-text.ts'
import type { Place } from './changed-places.ts'
import { parseJson } from './unstored.ts'

/** What a person had written into one record when the server refused it. */
export const Draft = z.strictObject({
  id: z.string(),
  at: Moment,
  kind: z.enum(kindNames as [KindName, ...KindName[]]),
  record: RecordId,
  /** the whole record, or the fields that were changed in one that others have too */
  extent: z.enum(['record', 'fields', 'removal']),
  /** as they stood on this page; null stands for a field that was taken away */
  fields: z.record(z.string(), z.unknown()),
  /** the sentence that the server's refusal became */
  reason: z.string(),
})
export type Draft = z.infer<typeof Draft>

/** Drafts of the lost places, one a record, with the values that stand in the diverged copy. */
export function draftsOf(
  doc: Y.Doc,
  places: readonly Place[],
  { reason, at, newId }: { readonly reason: string; readonly at: string; readonly newId: () => string },
): Draft[] {
  return [...groupByRecord(places).values()].map((group) => {
    const [{ kind, id }] = group
    const raw = readLeniently(doc, kind, id)
    const whole = group.some(({ field }) => field === undefined)
    const extent = raw === undefined ? 'removal' : whole ? 'record' : 'fields'
    const fields = raw === undefined ? {} : whole ? raw : changedFieldsOf(raw, group)
    return { id: newId(), at, kind, record: id, extent, fields: { ...fields }, reason }
  })
}

type Group = [Place, ...Place[]]

function groupByRecord(places: readonly Place[]): Map<string, Group> {
  const groups = new Map<string, Group>()
  for (const place of places) {
    const group = groups.get(`${place.kind}/${place.id}`)
    if (group === undefined) groups.set(`${place.kind}/${place.id}`, [place])
    else group.push(place)
  }
  return groups
}

function readLeniently(doc: Y.Doc, kind: KindName, id: string): RawRecord | undefined {
  try {
    return readRaw(doc, kind, id)
  } catch (error) {
    if (error instanceof LayoutFault) return {}
    throw error
  }
}

function changedFieldsOf(raw: RawRecord, places: readonly Place[]): Record<string, unknown> {
  const fields: Record<string, unknown> = {}
  for (const { field, key } of places) {
    if (field === undefined) continue
    if (key === undefined) fields[field] = raw[field] ?? null
    else {
      const map = raw[field] as RawRecord | undefined
      fields[field] = { ...(fields[field] as RawRecord | undefined), [key]: map?.[key] ?? null }
    }
  }
  return fields
}

/**
 * Writes a draft again, as an edit of now.
 * @returns false when it has no place to go: its record is gone, or it was text that others are writing in
 */
export function writeAgain(doc: Y.Doc, pen: Pen, draft: Draft): boolean {
  if (draft.extent === 'removal') return false
  const exists = tableOf(doc, draft.kind).has(draft.record)
  if (!exists) return draft.extent === 'record' && addAgain(doc, pen, draft)
  return changeAgain(doc, pen, draft)
}

/**
 * Writes a whole record again as it was, with the moment at which it was written. Changes of records that others have too are
 * left: they may be one half of an act whose other half was refused.
 * @returns whether it was written
 */
export function writeAsItWas(doc: Y.Doc, { kind, record, extent, fields }: Draft): boolean {
  if (extent !== 'record' || fields.id !== record || tableOf(doc, kind).has(record)) return false
  putRecord(doc, kind, fields as RecordOf<KindName>)
  return true
}

/** Whether the refusal is of this record, so that the rest of what was refused with it may stand without it. */
export const isBlamed = ({ kind, record }: Draft, { path }: Refusal): boolean => path === `${kind}/${record}`

const stampNames: readonly string[] = ['id', 'author', 'at']
/** Of the moment that has passed, so an edit of now cannot carry it. */
const passedNames: readonly string[] = [...stampNames, 'pictureAt']
/** Fields that nobody typed and that say nothing to a reader. */
const silentNames: readonly string[] = [...passedNames, 'rank', 'origin', 'movedAt', 'movedBy']

function contentOf(draft: Draft, pen: Pen): Record<string, unknown> {
  const signed: readonly string[] = kindOf(draft.kind).signed ?? []
  return Object.fromEntries(
    Object.entries(draft.fields)
      .filter(([field]) => !passedNames.includes(field))
      .map(([field, value]) => [field, signed.includes(field) ? signAgain(value, pen) : value]),
  )
}

const signAgain = (value: unknown, pen: Pen): unknown =>
  typeof value === 'object' && value !== null ? { ...value, by: pen.participant, at: pen.now().toISOString() } : value

function addAgain(doc: Y.Doc, pen: Pen, draft: Draft): boolean {
  const content = contentOf(draft, pen) as Content<KindName>
  if (draft.record === onlyId) writeSingle(doc, pen, draft.kind, content)
  else addRecord(doc, pen, draft.kind, content, draft.record)
  return true
}

function changeAgain(doc: Y.Doc, pen: Pen, draft: Draft): boolean {
  const nested = kindOf(draft.kind).nested ?? {}
  const content = contentOf(draft, pen)
  const entries = Object.entries(content)
  if (entries.some(([field]) => nested[field] === 'text')) return false
  doc.transact(() => {
    const plain = entries.filter(([field]) => nested[field] === undefined)
    const patch = Object.fromEntries(plain.map(([field, value]) => [field, value ?? undefined]))
    if (kindOf(draft.kind).single === true) {
      const current = readLeniently(doc, draft.kind, draft.record) ?? {}
      writeSingle(doc, pen, draft.kind, withoutStamp({ ...current, ...patch }) as Content<KindName>)
    } else changeRecord(doc, draft.kind, draft.record, patch)
    for (const [field, value] of entries) if (nested[field] === 'map') setKeys(doc, draft, field, value as RawRecord)
  })
  return true
}

const withoutStamp = (record: Record<string, unknown>): Record<string, unknown> =>
  Object.fromEntries(
    Object.entries(record).filter(([field, value]) => !stampNames.includes(field) && value !== undefined),
  )

function setKeys(doc: Y.Doc, draft: Draft, field: string, values: RawRecord): void {
  const map = recordMap(doc, draft.kind, draft.record).get(field)
  if (!(map instanceof Y.Map)) return
  for (const [key, value] of Object.entries(values)) {
    if (value === null) map.delete(key)
    else map.set(key, value)
  }
}

/** A draft for reading and copying: each field with its value in words. */
export function draftLines({ kind, fields }: Draft): { readonly field: string; readonly text: string }[] {
  const nested = kindOf(kind).nested ?? {}
  return Object.entries(fields)
    .filter(([field]) => !silentNames.includes(field))
    .map(([field, value]) => ({ field, text: nested[field] === 'text' ? richWords(value) : inWords(value) }))
    .filter(({ text }) => text !== '')
}

function richWords(value: unknown): string {
  const text = RichText.safeParse(value)
  return text.success ? plainText(text.data) : ''
}

function inWords(value: unknown): string {
  if (value === null || value === undefined) return ''
  if (Array.isArray(value)) return value.map(inWords).join(', ')
  if (typeof value !== 'object') return String(value)
  return Object.entries(value)
    .map(([key, child]) => `${key}: ${inWords(child)}`)
    .join(', ')
}

/** Drafts are kept until dealt with, but no more of them than this: the oldest go first. */
export const mostDrafts = 100
const mostCharacters = 500_000

export function boundedDrafts(drafts: readonly Draft[]): Draft[] {
  const kept = drafts.slice(-mostDrafts)
  while (kept.length > 1 && JSON.stringify(kept).length > mostCharacters) kept.shift()
  return kept
}

export function readDrafts(text: string | null): Draft[] {
  const drafts = z.array(Draft).safeParse(text === null ? [] : parseJson(text))
  return drafts.success ? drafts.data : []
}
