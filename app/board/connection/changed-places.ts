import type * as Y from 'yjs'
import { isKindName, type KindName, kindOf } from '@/lib/board/records.ts'

/** Where an edit reached: a whole record, one of its fields, or one key of a shared map in a field. */
export interface Place {
  readonly kind: KindName
  readonly id: string
  readonly field?: string
  readonly key?: string
}

export const placeText = ({ kind, id, field, key }: Place): string =>
  [kind, id, field, key].filter((part) => part !== undefined).join('/')

/** The places that a transaction changed. Content outside every table is left out: the guard names it. */
export function changedPlaces(doc: Y.Doc, transaction: Y.Transaction): Place[] {
  const places = new Map<string, Place>()
  for (const [type, keys] of transaction.changed)
    for (const place of placesOf(doc, type as unknown as Y.AbstractType<unknown>, keys))
      places.set(placeText(place), place)
  return [...places.values()]
}

function placesOf(doc: Y.Doc, type: Y.AbstractType<unknown>, keys: ReadonlySet<string | null>): Place[] {
  const { root, trail } = trailOf(doc, type)
  const [id, field] = trail
  if (root === undefined || !isKindName(root)) return []
  const names = [...keys].filter((key) => key !== null)
  if (id === undefined) return names.map((name) => ({ kind: root, id: name }))
  if (field === undefined) return names.map((name) => ({ kind: root, id, field: name }))
  if (kindOf(root).nested?.[field] !== 'map') return [{ kind: root, id, field }]
  return names.map((key) => ({ kind: root, id, field, key }))
}

/** The name of the root and the map keys on the way down to a shared type. */
function trailOf(doc: Y.Doc, type: Y.AbstractType<unknown>): { root: string | undefined; trail: string[] } {
  const trail: string[] = []
  let current = type
  for (let item = current._item; item !== null; item = current._item) {
    if (item.parentSub !== null) trail.unshift(item.parentSub)
    current = item.parent as Y.AbstractType<unknown>
  }
  for (const [root, shared] of doc.share) if ((shared as unknown) === current) return { root, trail }
  return { root: undefined, trail }
}
