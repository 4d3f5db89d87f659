import { type Snapshot, StoreConflict, type Withdrawal } from '../store.ts'
import type { Db } from './database.ts'
import type { Synchronous } from './operations.ts'

type Row = Omit<Withdrawal, 'records'> & { readonly records: string }

const columns = 'id, case_id AS caseId, document, records, content, reason, participant AS "by", role, at'

/** What was taken back, and the log without it. */
export function withdrawals(
  db: Db,
): Synchronous<'keptStates' | 'recordWithdrawal' | 'finishWithdrawal' | 'openWithdrawals' | 'listWithdrawals'> {
  const kept = db.prepare<[string, string], Snapshot>(
    `SELECT seq, bytes AS state FROM checkpoints WHERE document = ?
     UNION SELECT seq, bytes FROM snapshots WHERE document = ? ORDER BY seq`,
  )
  const insert = db.prepare<Row>(
    `INSERT INTO withdrawals (id, case_id, document, records, content, reason, participant, role, at)
     VALUES (@id, @caseId, @document, @records, @content, @reason, @by, @role, @at)`,
  )
  const byId = db.prepare<[string], Row>(`SELECT ${columns} FROM withdrawals WHERE id = ?`)
  const open = db.prepare<[], Row>(`SELECT ${columns} FROM withdrawals WHERE finished = 0 ORDER BY at, id`)
  const ofCase = db.prepare<[string], Row>(`SELECT ${columns} FROM withdrawals WHERE case_id = ? ORDER BY at, id`)
  const putUpdate = db.prepare<[Uint8Array, string, number]>(
    'UPDATE updates SET bytes = ? WHERE document = ? AND seq = ?',
  )
  const putStates = ['checkpoints', 'snapshots'].map((table) =>
    db.prepare<[Uint8Array, string, number]>(`UPDATE ${table} SET bytes = ? WHERE document = ? AND seq = ?`),
  )
  const dropMarks = db.prepare<[string, string, string]>(
    'DELETE FROM marks WHERE document = ? AND kind = ? AND record = ?',
  )
  const putAside = db.prepare<[string, string, string]>(
    'UPDATE pictures SET withdrawal = ? WHERE case_id = ? AND id = ?',
  )
  const dropUnseen = ['checkpoints', 'snapshots'].map((table) =>
    db.prepare<[string, string]>(
      `DELETE FROM ${table} WHERE document = ? AND seq NOT IN (SELECT value FROM json_each(?))`,
    ),
  )
  // The number that the log had: what is older holds the history as it was.
  const finish = db.prepare<[string, string]>(
    `UPDATE withdrawals SET finished = (SELECT coalesce(max(seq), 1) FROM updates WHERE document = ?) WHERE id = ?`,
  )
  const read = (row: Row): Withdrawal => ({ ...row, records: JSON.parse(row.records) })
  return {
    keptStates: (document) => kept.all(document, document),
    recordWithdrawal: (withdrawal) => {
      insert.run({ ...withdrawal, records: JSON.stringify(withdrawal.records) })
    },
    finishWithdrawal: (id, { updates, states, seen }) => {
      const found = byId.get(id)
      if (found === undefined) throw new StoreConflict(`No withdrawal ${id}.`)
      const { caseId, document, records } = read(found)
      for (const { seq, update } of updates) putUpdate.run(update, document, seq)
      for (const { seq, state } of states) for (const put of putStates) put.run(state, document, seq)
      for (const drop of dropUnseen) drop.run(document, JSON.stringify(seen))
      for (const record of records) dropMarks.run(document, record.kind, record.id)
      for (const record of records) if (record.kind === 'pictures') putAside.run(id, caseId, record.id)
      finish.run(document, id)
    },
    openWithdrawals: () => open.all().map(read),
    listWithdrawals: (caseId) => ofCase.all(caseId).map(read),
  }
}
