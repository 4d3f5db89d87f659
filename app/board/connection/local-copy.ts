import { IndexeddbPersistence } from 'y-indexeddb'
import type * as Y from 'yjs'

/** The copy of a document that this browser keeps for one participant, so that work goes on offline. */
export interface LocalCopy {
  /** Stops keeping the copy and empties it, as far as the browser lets; what stays is refused again when it is sent. */
  forget(): Promise<void>
  /** Stops keeping the copy up to date; what is in it stays. */
  close(): void
}

/**
 * Fills `doc` from the copy kept under `name` and keeps the copy up to date.
 * @param failed something that was written is not in the copy. A browser whose disk is full takes the write and undoes it
 * afterwards, which nobody but the database is told.
 */
export async function keepLocalCopy(name: string, doc: Y.Doc, failed: () => void): Promise<LocalCopy> {
  const persistence = new IndexeddbPersistence(name, doc)
  await persistence.whenSynced
  persistence.db?.addEventListener('abort', failed)
  return {
    forget: async () => {
      await persistence.destroy()
      await emptyStore(name)
    },
    close: () => void persistence.destroy(),
  }
}

/** The store is emptied, not deleted: another window of this browser may have it open. */
function emptyStore(name: string): Promise<void> {
  return new Promise((resolve) => {
    const request = indexedDB.open(name)
    request.onerror = () => resolve()
    request.onsuccess = () => {
      const transaction = request.result.transaction(['updates'], 'readwrite')
      transaction.objectStore('updates').clear()
      const done = () => {
        request.result.close()
        resolve()
      }
      transaction.oncomplete = done
      transaction.onabort = done
    }
  })
}
