import { type Store, StoreConflict, type StoredPicture } from '../store.ts'
import type { Database } from './database.ts'

/** The bytes of photographs, and those that were withdrawn. */
export function pictures(db: Database): Pick<Store, 'savePicture' | 'picture' | 'dropPicture' | 'withdrawnPicture'> {
  const one = async (where: string, values: readonly string[]): Promise<StoredPicture | null> => {
    const sql = `SELECT media_type AS "mediaType", bytes FROM pictures WHERE ${where}`
    return (await db.rows<StoredPicture>(sql, values))[0] ?? null
  }
  return {
    savePicture: async (caseId, id, { mediaType, bytes }) => {
      // The case's row is held, so that an erasure that comes at the same time finds the picture.
      const saved = await db.change(
        `INSERT INTO pictures (case_id, id, media_type, bytes)
         SELECT id, $2, $3, $4 FROM cases WHERE id = $1 FOR SHARE`,
        [caseId, id, mediaType, Buffer.from(bytes)],
      )
      if (saved === 0) throw new StoreConflict(`No case ${caseId}.`)
    },
    picture: (caseId, id) => one('case_id = $1 AND id = $2 AND withdrawal IS NULL', [caseId, id]),
    dropPicture: async (caseId, id) => {
      await db.change('DELETE FROM pictures WHERE case_id = $1 AND id = $2 AND withdrawal IS NULL', [caseId, id])
    },
    withdrawnPicture: (caseId, withdrawal) => one('case_id = $1 AND withdrawal = $2', [caseId, withdrawal]),
  }
}
