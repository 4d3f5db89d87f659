import { documentsOfCase, type Erasure, type ErasureCounts, readCounts, type Store, StoreConflict } from '../store.ts'
import type { Database, Db } from './database.ts'

type ErasureRow = Omit<Erasure, 'counts'> & { readonly counts: string }

/** Takes a case out of every table, and keeps the receipt of it. */
export function erasures(db: Database): Pick<Store, 'eraseCase' | 'listErasures'> {
  return {
    eraseCase: (caseId, receipt) =>
      db.whole(async (one) => {
        const [found] = await one.rows<{ programme: string }>('SELECT programme FROM cases WHERE id = $1', [caseId])
        if (found === undefined) throw new StoreConflict(`No case ${caseId}.`)
        const erasure: Erasure = { ...receipt, caseId, programme: found.programme, counts: await erased(one, caseId) }
        const { id, by, at, programme, counts } = erasure
        await one.change(
          'INSERT INTO erasures (id, case_id, programme, participant, at, counts) VALUES ($1, $2, $3, $4, $5, $6)',
          [id, caseId, programme, by, at, JSON.stringify(counts)],
        )
        return erasure
      }),
    listErasures: async () => {
      const rows = await db.rows<ErasureRow>(
        `SELECT id, case_id AS "caseId", programme, participant AS "by", at, counts
         FROM erasures ORDER BY at DESC, id`,
      )
      return rows.map((each) => ({ ...each, counts: readCounts(each.counts) }))
    },
  }
}

async function erased(db: Db, id: string): Promise<ErasureCounts> {
  const ofDocuments = (table: string) =>
    db.change(`DELETE FROM ${table} WHERE document = ANY ($1)`, [documentsOfCase(id)])
  const ofCase = (table: string) => db.change(`DELETE FROM ${table} WHERE case_id = $1`, [id])
  // The heads first: they are what an append waits for.
  await ofDocuments('documents')
  const updates = await ofDocuments('updates')
  const marks = await ofDocuments('marks')
  const states = (await ofDocuments('snapshots')) + (await ofDocuments('checkpoints'))
  await ofDocuments('client_owners')
  const ballots = await ofCase('ballots')
  await ofCase('closed_votes')
  const withdrawals = await ofCase('withdrawals')
  const unnamedAuthors = await ofCase('unnamed_authors')
  const [granted] = await db.rows<{ n: number }>(
    "SELECT count(*)::integer AS n FROM grants WHERE scope_kind = 'case' AND scope_id = $1",
    [id],
  )
  const invitations = await db.change("DELETE FROM invitations WHERE scope_kind = 'case' AND scope_id = $1", [id])
  // Whoever else erases it at the same time comes first, and this one is undone.
  if ((await db.change('DELETE FROM cases WHERE id = $1', [id])) === 0) throw new StoreConflict(`No case ${id}.`)
  // After the case, whose row an outcome that is being saved holds: none can come behind.
  await ofCase('case_outcomes')
  await ofCase('visit_outcomes')
  // The same for a picture that is being saved.
  const pictures = await ofCase('pictures')
  const grants = granted?.n ?? 0
  return { updates, marks, states, ballots, withdrawals, unnamedAuthors, pictures, invitations, grants }
}
