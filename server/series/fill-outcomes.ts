import { setImmediate as nextTurn } from 'node:timers/promises'
import * as Y from 'yjs'
import { documentName } from '../../lib/board/documents.ts'
import { kindsIn } from '../../lib/board/records.ts'
import { RecordTables } from '../guard/record-tables.ts'
import { projectOutcome } from '../room/outcome-projection.ts'
import { type Store, StoreConflict } from '../store/store.ts'

const atOnce = 50

/**
 * Gives the series what cases hold that nobody has edited since there is a series, one case at a time, so that whoever
 * works meanwhile does not wait. Ends early when `isClosed`; the next start goes on.
 * @throws StoreOutage
 */
export async function fillOutcomes(store: Store, isClosed: () => boolean): Promise<void> {
  for (;;) {
    const missing = await store.casesWithoutOutcome(atOnce)
    if (missing.length === 0) return
    for (const caseId of missing) {
      if (isClosed()) return
      await fillOutcome(store, caseId)
      await nextTurn()
    }
  }
}

async function fillOutcome(store: Store, caseId: string): Promise<void> {
  const { snapshot, updates } = await store.load(documentName('record', caseId))
  const doc = new Y.Doc()
  if (snapshot !== null) Y.applyUpdate(doc, snapshot.state)
  for (const { update } of updates) Y.applyUpdate(doc, update)
  const tables = new RecordTables()
  tables.fill(doc, kindsIn('record'))
  doc.destroy()
  try {
    await store.saveOutcome(caseId, projectOutcome(tables))
  } catch (error) {
    if (!(error instanceof StoreConflict)) throw error // erased meanwhile
  }
}
