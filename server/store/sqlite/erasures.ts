import { documentsOfCase, type Erasure, type ErasureCounts, readCounts, StoreConflict } from '../store.ts'
import type { Db } from './database.ts'
import type { Synchronous } from './operations.ts'

type ErasureRow = Omit<Erasure, 'counts'> & { readonly counts: string }

/** Takes a case out of every table, and keeps the receipt of it. */
export function erasures(db: Db): Synchronous<'eraseCase' | 'listErasures'> {
  const ofDocument = (table: string) => db.prepare<[string]>(`DELETE FROM ${table} WHERE document = ?`)
  const ofCase = (table: string) => db.prepare<[string]>(`DELETE FROM ${table} WHERE case_id = ?`)
  const byDocument = {
    updates: ofDocument('updates'),
    marks: ofDocument('marks'),
    snapshots: ofDocument('snapshots'),
    checkpoints: ofDocument('checkpoints'),
    clients: ofDocument('client_owners'),
  }
  const byCase = {
    ballots: ofCase('ballots'),
    closedVotes: ofCase('closed_votes'),
    withdrawals: ofCase('withdrawals'),
    unnamedAuthors: ofCase('unnamed_authors'),
    pictures: ofCase('pictures'),
    outcomes: ofCase('case_outcomes'),
    visitOutcomes: ofCase('visit_outcomes'),
  }
  const invitations = db.prepare<[string]>("DELETE FROM invitations WHERE scope_kind = 'case' AND scope_id = ?")
  const grants = db.prepare<[string], { n: number }>(
    "SELECT count(*) AS n FROM grants WHERE scope_kind = 'case' AND scope_id = ?",
  )
  const programmeOf = db.prepare<[string], { programme: string }>('SELECT programme FROM cases WHERE id = ?')
  const row = db.prepare<[string]>('DELETE FROM cases WHERE id = ?')
  const insert = db.prepare<ErasureRow>(
    `INSERT INTO erasures (id, case_id, programme, participant, at, counts)
     VALUES (@id, @caseId, @programme, @by, @at, @counts)`,
  )
  const all = db.prepare<[], ErasureRow>(
    `SELECT id, case_id AS caseId, programme, participant AS "by", at, counts FROM erasures ORDER BY at DESC, id`,
  )

  function erased(id: string): ErasureCounts {
    const gone = (statement: (typeof byDocument)[keyof typeof byDocument]) =>
      documentsOfCase(id).reduce((sum, document) => sum + statement.run(document).changes, 0)
    const counts = {
      updates: gone(byDocument.updates),
      marks: gone(byDocument.marks),
      states: gone(byDocument.snapshots) + gone(byDocument.checkpoints),
      ballots: byCase.ballots.run(id).changes,
      withdrawals: byCase.withdrawals.run(id).changes,
      unnamedAuthors: byCase.unnamedAuthors.run(id).changes,
      pictures: byCase.pictures.run(id).changes,
      grants: grants.get(id)?.n ?? 0,
      invitations: invitations.run(id).changes,
    }
    gone(byDocument.clients)
    byCase.closedVotes.run(id)
    byCase.outcomes.run(id)
    byCase.visitOutcomes.run(id)
    row.run(id)
    return counts
  }

  return {
    eraseCase: (caseId, receipt) => {
      const programme = programmeOf.get(caseId)?.programme
      if (programme === undefined) throw new StoreConflict(`No case ${caseId}.`)
      const erasure = { ...receipt, caseId, programme, counts: erased(caseId) }
      insert.run({ ...erasure, counts: JSON.stringify(erasure.counts) })
      return erasure
    },
    listErasures: () => all.all().map((each) => ({ ...each, counts: readCounts(each.counts) })),
  }
}
