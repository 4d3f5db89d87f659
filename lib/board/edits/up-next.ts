import type * as Y from 'yjs'
import type { RecordId } from '../identity.ts'
import { byRank, readTable } from '../reading.ts'
import type { Showing } from '../records/main-screen.ts'
import type { UpNext } from '../records/up-next.ts'
import { showOnMainScreen } from './decisions.ts'
import { rankAfterShift } from './order.ts'
import { addRecord, changeRecord, type Pen, rankAtEnd, removeRecord } from './writing.ts'

/** Puts something at the end of the queue for the main screen. */
export function queueForScreen(doc: Y.Doc, pen: Pen, showing: Showing): RecordId {
  return addRecord(doc, pen, 'upNext', { showing, rank: rankAtEnd(readTable(doc, 'upNext')) })
}

export function shiftInQueue(doc: Y.Doc, id: RecordId, by: -1 | 1): void {
  const rank = rankAfterShift(readTable(doc, 'upNext'), id, by)
  if (rank !== undefined) changeRecord(doc, 'upNext', id, { rank })
}

export const dropFromQueue = (doc: Y.Doc, id: RecordId): void => removeRecord(doc, 'upNext', id)

/**
 * Shows an entry of the queue, by default the first, and takes it out.
 * @returns what is shown now; undefined when there was no such entry
 */
export function bringNext(doc: Y.Doc, pen: Pen, id?: RecordId): UpNext | undefined {
  const queue = readTable(doc, 'upNext').sort(byRank)
  const next = id === undefined ? queue[0] : queue.find((entry) => entry.id === id)
  if (next === undefined) return undefined
  doc.transact(() => {
    showOnMainScreen(doc, pen, next.showing)
    removeRecord(doc, 'upNext', next.id)
  })
  return next
}
