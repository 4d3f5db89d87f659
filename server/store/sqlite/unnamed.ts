import type { UnnamedAuthor } from '../store.ts'
import type { Db } from './database.ts'
import type { Synchronous } from './operations.ts'

/** Who asked without their name, kept beside the documents, which everybody receives whole. */
export function unnamed(db: Db): Synchronous<'addUnnamed' | 'listUnnamed'> {
  const insert = db.prepare<UnnamedAuthor>(
    `INSERT INTO unnamed_authors (case_id, author, participant, picture_at)
     VALUES (@caseId, @author, @participant, @pictureAt)`,
  )
  const all = db.prepare<[string], UnnamedAuthor>(
    `SELECT case_id AS caseId, author, participant, picture_at AS pictureAt
     FROM unnamed_authors WHERE case_id = ? ORDER BY author`,
  )
  return {
    addUnnamed: (author) => {
      insert.run(author)
    },
    listUnnamed: (caseId) => all.all(caseId),
  }
}
