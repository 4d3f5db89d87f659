import type * as Y from 'yjs'
import { changedFields } from './judge.ts'
import { readTable } from './reading.ts'
import { type DocumentKind, type KindName, kindOf, kindsIn, type RecordOf, type recordKinds } from './records.ts'

/** A field that somebody may change, of whatever kind. */
export type ChangeableField = { [K in KindName]: keyof (typeof recordKinds)[K]['change'] }[KindName]

/** What became of one record between two moments. `record` is the later of what stood at either. */
export interface Difference {
  readonly kind: KindName
  readonly record: RecordOf<KindName>
  readonly change:
    | { readonly how: 'added' | 'removed' }
    | { readonly how: 'moved'; readonly from: string; readonly to: string; readonly fields: readonly ChangeableField[] }
    | { readonly how: 'changed'; readonly fields: readonly ChangeableField[] }
}

/** Fields that a move carries along: its states tell of it. */
const told: readonly string[] = [
  'state',
  'movedAt',
  'movedBy',
  'moved',
  'acted',
  'startedAt',
  'endedAt',
  'closing',
  'held',
  'done',
]

/** What is different between two states of one document, kind by kind, each kind's records in the order of their ids. */
export function differencesBetween(document: DocumentKind, before: Y.Doc, after: Y.Doc): Difference[] {
  return kindsIn(document).flatMap((kind) => differencesIn(kind, byId(before, kind), byId(after, kind)))
}

type Records = ReadonlyMap<string, RecordOf<KindName>>

const byId = (doc: Y.Doc, kind: KindName): Records => new Map(readTable(doc, kind).map((record) => [record.id, record]))

function differencesIn(kind: KindName, before: Records, after: Records): Difference[] {
  const ids = [...new Set([...before.keys(), ...after.keys()])].sort()
  return ids.flatMap((id) => {
    const [was, is] = [before.get(id), after.get(id)]
    if (was === undefined) return is === undefined ? [] : [{ kind, record: is, change: { how: 'added' } }]
    if (is === undefined) return [{ kind, record: was, change: { how: 'removed' } }]
    const change = changeOf(kind, was, is)
    return change === undefined ? [] : [{ kind, record: is, change }]
  })
}

function changeOf(kind: KindName, was: RecordOf<KindName>, is: RecordOf<KindName>): Difference['change'] | undefined {
  const { change } = kindOf(kind)
  const isOwnNews = (field: string): field is ChangeableField => field in change && !told.includes(field)
  const fields = changedFields({ ...was }, { ...is }).filter(isOwnNews)
  if ('state' in was && 'state' in is && was.state !== is.state)
    return { how: 'moved', from: was.state, to: is.state, fields }
  return fields.length === 0 ? undefined : { how: 'changed', fields }
}
