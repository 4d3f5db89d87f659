import { type RewrittenHistory, type Snapshot, type Store, StoreConflict, type Withdrawal } from '../store.ts'
import type { Database, Db } from './database.ts'

type Row = Omit<Withdrawal, 'records'> & { readonly records: string }
type WithdrawalOperations = Pick<
  Store,
  'keptStates' | 'recordWithdrawal' | 'finishWithdrawal' | 'openWithdrawals' | 'listWithdrawals'
>

const columns = 'id, case_id AS "caseId", document, records, content, reason, participant AS "by", role, at'
const read = (row: Row): Withdrawal => ({ ...row, records: JSON.parse(row.records) })

/** What was taken back, and the log without it. */
export function withdrawals(db: Database): WithdrawalOperations {
  return {
    keptStates: (document) =>
      db.rows<Snapshot>(
        `SELECT seq, bytes AS state FROM checkpoints WHERE document = $1
         UNION SELECT seq, bytes FROM snapshots WHERE document = $1 ORDER BY seq`,
        [document],
      ),
    recordWithdrawal: async ({ id, caseId, document, records, content, reason, by, role, at }) => {
      await db.change(
        `INSERT INTO withdrawals (id, case_id, document, records, content, reason, participant, role, at)
         VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9)`,
        [id, caseId, document, JSON.stringify(records), content, reason, by, role, at],
      )
    },
    finishWithdrawal: (id, history) => db.whole((one) => finish(one, id, history)),
    openWithdrawals: async () => {
      const rows = await db.rows<Row>(`SELECT ${columns} FROM withdrawals WHERE finished = 0 ORDER BY at, id`)
      return rows.map(read)
    },
    listWithdrawals: async (caseId) => {
      const rows = await db.rows<Row>(`SELECT ${columns} FROM withdrawals WHERE case_id = $1 ORDER BY at, id`, [caseId])
      return rows.map(read)
    },
  }
}

async function finish(db: Db, id: string, { updates, states, seen }: RewrittenHistory): Promise<void> {
  const [found] = await db.rows<Row>(`SELECT ${columns} FROM withdrawals WHERE id = $1`, [id])
  if (found === undefined) throw new StoreConflict(`No withdrawal ${id}.`)
  const { caseId, document, records } = read(found)
  // Whoever keeps a state meanwhile waits, and then finds the number below.
  await db.rows('SELECT FROM documents WHERE document = $1 FOR UPDATE', [document])
  for (const { seq, update } of updates)
    await db.change('UPDATE updates SET bytes = $1 WHERE document = $2 AND seq = $3', [
      Buffer.from(update),
      document,
      seq,
    ])
  for (const { seq, state } of states)
    for (const table of ['checkpoints', 'snapshots'])
      await db.change(`UPDATE ${table} SET bytes = $1 WHERE document = $2 AND seq = $3`, [
        Buffer.from(state),
        document,
        seq,
      ])
  for (const table of ['checkpoints', 'snapshots'])
    await db.change(`DELETE FROM ${table} WHERE document = $1 AND NOT seq = ANY($2::integer[])`, [document, [...seen]])
  for (const record of records)
    await db.change('DELETE FROM marks WHERE document = $1 AND kind = $2 AND record = $3', [
      document,
      record.kind,
      record.id,
    ])
  for (const record of records)
    if (record.kind === 'pictures')
      await db.change('UPDATE pictures SET withdrawal = $1 WHERE case_id = $2 AND id = $3', [id, caseId, record.id])
  // The number that the log had: what is older holds the history as it was.
  await db.change(
    `UPDATE withdrawals SET finished = (SELECT coalesce(max(seq), 1) FROM updates WHERE document = $1) WHERE id = $2`,
    [document, id],
  )
}
