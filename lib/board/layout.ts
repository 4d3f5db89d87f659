import * as Y from 'yjs'
import { isKindName, type KindName, kindOf } from './records.ts'
import { DisguisedText, readFragment } from './rich-text.ts'

/** A record as it stands in a document, not yet parsed by its schema. */
export type RawRecord = Readonly<Record<string, unknown>>

/**
 * Plain values that one record may hold, counted before its schema looks at them: a list of a million wrong entries would
 * be a million complaints. The largest records, a sealed forecast and a device profile, hold some hundred.
 */
export const mostValues = 10_000

/** Something in a document that is not where or what the layout says; `path` names the place. */
export class LayoutFault extends Error {
  readonly path: string
  constructor(path: string, message: string) {
    super(message)
    this.path = path
  }
}

export const tableOf = (doc: Y.Doc, kind: KindName): Y.Map<unknown> => doc.getMap(kind)

/**
 * Reads one record into plain values: nested maps and texts where the kind says so, JSON elsewhere.
 * @returns undefined when there is no such record
 * @throws LayoutFault for a value of another type, a forbidden key or a text that is not text
 */
export function readRaw(doc: Y.Doc, kind: KindName, id: string): RawRecord | undefined {
  const value = tableOf(doc, kind).get(id)
  if (value === undefined) return undefined
  const path = `${kind}/${id}`
  if (!isPlainMap(value)) throw new LayoutFault(path, 'a record is a map')
  const nested = kindOf(kind).nested ?? {}
  const raw: Record<string, unknown> = {}
  const room = { left: mostValues }
  for (const [field, content] of value.entries()) {
    refuseSpecialKey(path, field)
    raw[field] = readField(content, nested[field], `${path}/${field}`, room)
  }
  return raw
}

/** How many more values the record may hold. */
interface Room {
  left: number
}

function readField(content: unknown, shape: 'map' | 'text' | undefined, path: string, room: Room): unknown {
  if (shape === 'map') return readNestedMap(content, path, room)
  if (shape === 'text') return readNestedText(content, path)
  return plainValue(content, path, room)
}

function readNestedMap(content: unknown, path: string, room: Room): Record<string, unknown> {
  if (!isPlainMap(content)) throw new LayoutFault(path, 'expected a shared map')
  const raw: Record<string, unknown> = {}
  for (const [key, value] of content.entries()) {
    refuseSpecialKey(path, key)
    raw[key] = plainValue(value, `${path}/${key}`, room)
  }
  return raw
}

function readNestedText(content: unknown, path: string): unknown {
  if (!(content instanceof Y.XmlFragment) || content.constructor !== Y.XmlFragment)
    throw new LayoutFault(path, 'expected a shared text')
  try {
    return readFragment(content)
  } catch (error) {
    if (error instanceof DisguisedText) throw new LayoutFault(path, error.message)
    throw error
  }
}

const isPlainMap = (value: unknown): value is Y.Map<unknown> => value instanceof Y.Map && value.constructor === Y.Map

function refuseSpecialKey(path: string, key: string): void {
  if (key.startsWith('_') || key === 'constructor' || key === 'prototype')
    throw new LayoutFault(`${path}/${key}`, 'forbidden key')
}

/** JSON only: a shared type, bytes, a nested document or a special key cannot hide in a plain value. */
function plainValue(value: unknown, path: string, room: Room): unknown {
  room.left -= 1
  if (room.left < 0) throw new LayoutFault(path, `a record holds at most ${mostValues} values`)
  if (value === null || typeof value === 'string' || typeof value === 'boolean') return value
  if (typeof value === 'number' && Number.isFinite(value)) return value
  if (Array.isArray(value)) return value.map((item, index) => plainValue(item, `${path}/${index}`, room))
  if (typeof value === 'object' && Object.getPrototypeOf(value) === Object.prototype) {
    for (const [key, child] of Object.entries(value)) {
      refuseSpecialKey(path, key)
      plainValue(child, `${path}/${key}`, room)
    }
    return value
  }
  throw new LayoutFault(path, 'expected a plain value')
}

export interface TouchedRecord {
  readonly kind: KindName
  readonly id: string
}

/**
 * The records that a transaction touched.
 * @throws LayoutFault for content under an unknown root, in list position outside a text, or directly in a root's list
 */
export function touchedRecords(doc: Y.Doc, transaction: Y.Transaction): TouchedRecord[] {
  const touched = new Map<string, TouchedRecord>()
  const note = (kind: KindName, id: string) => touched.set(`${kind}/${id}`, { kind, id })
  for (const [type, keys] of transaction.changed) {
    const place = placeOf(doc, type as unknown as Y.AbstractType<unknown>)
    if (!isKindName(place.root)) throw new LayoutFault(place.root, 'there is no such table')
    if (!(type instanceof Y.XmlFragment || type instanceof Y.XmlText) && keys.has(null))
      throw new LayoutFault(place.root, 'a table holds records by id, not a list')
    if (place.id !== undefined) note(place.root, place.id)
    else for (const id of keys) if (id !== null) note(place.root, id)
  }
  return [...touched.values()]
}

/** Root name and, below the root, the record id under which a shared type stands. */
function placeOf(doc: Y.Doc, type: Y.AbstractType<unknown>): { root: string; id: string | undefined } {
  let current = type
  let id: string | undefined
  for (let item = current._item; item !== null; item = current._item) {
    id = item.parentSub ?? undefined
    current = item.parent as Y.AbstractType<unknown>
  }
  for (const [root, shared] of doc.share) if ((shared as unknown) === current) return { root, id }
  throw new LayoutFault('unknown', 'content outside every table')
}
