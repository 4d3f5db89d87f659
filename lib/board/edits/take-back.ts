import { equalityDeep } from 'lib0/function'
import * as Y from 'yjs'
import { onlyId } from '../identity.ts'
import { changedFields } from '../judge.ts'
import { type RawRecord, tableOf } from '../layout.ts'
import { type KindName, kindOf } from '../records.ts'
import { strikeNote } from './decisions.ts'
import { type Content, changeRecord, type Pen, putRecord, removeRecord, writeSingle } from './writing.ts'

/** What one edit did to one record: its fields before and after; absent before it was made and after it was removed. */
interface Altered {
  readonly kind: KindName
  readonly id: string
  readonly before?: RawRecord | undefined
  readonly after?: RawRecord | undefined
}

/** Edits of one act of a person, as they can be taken back. */
export interface Deed {
  readonly doc: Y.Doc
  readonly altered: readonly Altered[]
}

/** Makes an edit in one transaction and remembers what it did to the records of these kinds. */
export function rememberEdit(doc: Y.Doc, kinds: readonly KindName[], edit: () => void): Deed {
  const before = kinds.map((kind) => contentsOf(doc, kind))
  doc.transact(edit)
  const altered = kinds.flatMap((kind, index) => {
    const was = before[index] ?? new Map<string, RawRecord>()
    const is = contentsOf(doc, kind)
    return [...new Set([...was.keys(), ...is.keys()])]
      .map((id) => ({ kind, id, before: was.get(id), after: is.get(id) }))
      .filter((one) => !equalityDeep(one.before, one.after))
  })
  return { doc, altered }
}

function contentsOf(doc: Y.Doc, kind: KindName): ReadonlyMap<string, RawRecord> {
  const contents = new Map<string, RawRecord>()
  for (const [id, record] of tableOf(doc, kind)) if (record instanceof Y.Map) contents.set(id, record.toJSON())
  return contents
}

/** Fields that tell of a change and are none themselves. */
const told: readonly string[] = ['author', 'at', 'movedAt', 'movedBy']

/** Whether everything still stands as the deed left it: nobody else has changed it since. */
export function stillStands({ doc, altered }: Deed): boolean {
  return altered.every(({ kind, id, before, after }) => {
    const now = tableOf(doc, kind).get(id)
    if (after === undefined) return now === undefined
    if (!(now instanceof Y.Map)) return false
    const is = now.toJSON() as RawRecord
    return fieldsOf(before, after).every((field) => equalityDeep(is[field], after[field]))
  })
}

const fieldsOf = (before: RawRecord | undefined, after: RawRecord): string[] =>
  before === undefined
    ? ['state', 'struck', 'showing']
    : changedFields(before, after).filter((field) => !told.includes(field))

/**
 * Takes a deed back: each record stands as it stood before, in an edit of now that the guard judges like any other. What
 * can never be removed is struck out. Nothing is done when somebody else has changed a part of it since.
 * @param reason what a struck note says
 * @returns whether it was taken back
 */
export function takeBack(pen: Pen, deed: Deed, reason: string): boolean {
  if (!stillStands(deed)) return false
  const { doc, altered } = deed
  doc.transact(() => {
    for (const one of altered) restore(doc, pen, one, reason)
  })
  return true
}

function restore(doc: Y.Doc, pen: Pen, { kind, id, before, after }: Altered, reason: string): void {
  const { single } = kindOf(kind)
  if (before === undefined) {
    if (kind === 'notes') strikeNote(doc, pen, id, reason)
    else if (kind === 'mainScreen') writeSingle(doc, pen, 'mainScreen', { showing: { kind: 'nothing' } })
    else removeRecord(doc, kind, id)
  } else if (after === undefined) putRecord(doc, kind, { ...before, ...stampOf(pen) } as never)
  else if (single === true && id === onlyId) writeSingle(doc, pen, kind, contentOf(before) as Content<KindName>)
  else changeRecord(doc, kind, id, patchTo(kind, before, after, pen))
}

const stampOf = (pen: Pen) => ({ author: pen.participant, at: pen.now().toISOString() })

const contentOf = ({ id: _id, author: _author, at: _at, ...content }: RawRecord): Record<string, unknown> => content

/** The fields as they were. Who signs is who writes: what stood under another name is signed anew. */
function patchTo(kind: KindName, before: RawRecord, after: RawRecord, pen: Pen): Record<string, unknown> {
  const { signed = [], named = [] } = kindOf(kind)
  const now = pen.now().toISOString()
  return Object.fromEntries(
    changedFields(before, after).map((field) => {
      const value = before[field]
      if (named.includes(field)) return [field, pen.participant]
      if (field === 'movedAt') return [field, now]
      if (signed.includes(field) && value !== undefined)
        return [field, { ...(value as object), by: pen.participant, at: now }]
      return [field, value]
    }),
  )
}
