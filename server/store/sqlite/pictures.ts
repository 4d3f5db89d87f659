import { StoreConflict, type StoredPicture } from '../store.ts'
import type { Db } from './database.ts'
import type { Synchronous } from './operations.ts'

interface Row {
  readonly mediaType: StoredPicture['mediaType']
  readonly bytes: Uint8Array
}

/** The bytes of photographs, and those that were withdrawn. */
export function pictures(db: Db): Synchronous<'savePicture' | 'picture' | 'dropPicture' | 'withdrawnPicture'> {
  const isThere = db.prepare<[string]>('SELECT 1 FROM cases WHERE id = ?')
  const insert = db.prepare<[string, string, string, Uint8Array]>(
    'INSERT INTO pictures (case_id, id, media_type, bytes) VALUES (?, ?, ?, ?)',
  )
  const standing = db.prepare<[string, string], Row>(
    'SELECT media_type AS mediaType, bytes FROM pictures WHERE case_id = ? AND id = ? AND withdrawal IS NULL',
  )
  const drop = db.prepare<[string, string]>('DELETE FROM pictures WHERE case_id = ? AND id = ? AND withdrawal IS NULL')
  const withdrawn = db.prepare<[string, string], Row>(
    'SELECT media_type AS mediaType, bytes FROM pictures WHERE case_id = ? AND withdrawal = ?',
  )
  return {
    savePicture: (caseId, id, { mediaType, bytes }) => {
      if (isThere.get(caseId) === undefined) throw new StoreConflict(`No case ${caseId}.`)
      insert.run(caseId, id, mediaType, bytes)
    },
    picture: (caseId, id) => standing.get(caseId, id) ?? null,
    dropPicture: (caseId, id) => {
      drop.run(caseId, id)
    },
    withdrawnPicture: (caseId, withdrawal) => withdrawn.get(caseId, withdrawal) ?? null,
  }
}
