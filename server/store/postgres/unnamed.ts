import type { Store, UnnamedAuthor } from '../store.ts'
import type { Db } from './database.ts'

/** Who asked without their name, kept beside the documents, which everybody receives whole. */
export function unnamed(db: Db): Pick<Store, 'addUnnamed' | 'listUnnamed'> {
  return {
    addUnnamed: async ({ caseId, author, participant, pictureAt }) => {
      await db.rows('INSERT INTO unnamed_authors (case_id, author, participant, picture_at) VALUES ($1, $2, $3, $4)', [
        caseId,
        author,
        participant,
        pictureAt,
      ])
    },
    listUnnamed: (caseId) =>
      db.rows<UnnamedAuthor>(
        `SELECT case_id AS "caseId", author, participant, picture_at AS "pictureAt"
         FROM unnamed_authors WHERE case_id = $1 ORDER BY author`,
        [caseId],
      ),
  }
}
