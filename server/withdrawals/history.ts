import { setImmediate as nextTurn } from 'node:timers/promises'
import * as Y from 'yjs'
import { type TouchedRecord, tableOf } from '../../lib/board/layout.ts'
import type { Snapshot } from '../store/store.ts'

/** A document's log from its beginning, and the states that are kept of it. */
export interface History {
  readonly updates: readonly { readonly seq: number; readonly update: Uint8Array }[]
  readonly states: readonly Snapshot[]
}

/** Updates replayed before others have a turn: a log of hours must not hold up the room. */
const turn = 100

/**
 * The same history as if nothing had ever been written in these records: what has to be replaced of it. Replayed on a copy in
 * which the records are taken away the moment they appear, so that Yjs drops their content and keeps only that something of
 * this length was there; what others wrote stays byte for byte.
 * @returns updates and states that carried content of the records, rewritten; all others stand as they are
 */
export async function withoutRecords(history: History, records: readonly TouchedRecord[]): Promise<History> {
  const copy = new Y.Doc()
  const updates: { seq: number; update: Uint8Array }[] = []
  const states: Snapshot[] = []
  const waiting = history.states.toSorted((a, b) => a.seq - b.seq)
  let hasMet = false
  const keepStatesBefore = (seq: number) => {
    for (let state = waiting[0]; state !== undefined && state.seq < seq; state = waiting[0]) {
      if (hasMet) states.push({ seq: state.seq, state: Y.encodeStateAsUpdate(copy) })
      waiting.shift()
    }
  }
  for (const [index, { seq, update }] of history.updates.entries()) {
    keepStatesBefore(seq)
    const before = Y.encodeStateVector(copy)
    Y.applyUpdate(copy, update)
    const met = takeAway(copy, records)
    hasMet ||= met
    if (met || (hasMet && carriesDropped(copy, update)))
      updates.push({ seq, update: Y.encodeStateAsUpdate(copy, before) })
    if (index % turn === turn - 1) await nextTurn()
  }
  keepStatesBefore(Number.POSITIVE_INFINITY)
  copy.destroy()
  return { updates, states }
}

/** @returns whether one of them was there */
function takeAway(copy: Y.Doc, records: readonly TouchedRecord[]): boolean {
  const there = records.filter(({ kind, id }) => tableOf(copy, kind).has(id))
  if (there.length > 0)
    copy.transact(() => {
      for (const { kind, id } of there) tableOf(copy, kind).delete(id)
    })
  return there.length > 0
}

/** Whether the update brings content that the copy dropped at once, because what it belongs to has been taken away. */
function carriesDropped(copy: Y.Doc, update: Uint8Array): boolean {
  const { structs } = Y.decodeUpdate(update)
  return structs.some((struct) => {
    if (!(struct instanceof Y.Item) || struct.deleted) return false
    if (struct.id.clock >= Y.getState(copy.store, struct.id.client)) return false
    const kept = Y.getItem(copy.store, struct.id) as Y.Item | Y.GC
    return kept instanceof Y.GC || kept.deleted
  })
}
