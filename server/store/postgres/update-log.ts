import type { ParticipantId } from '../../../lib/board/identity.ts'
import { checkpointEvery, type LoggedMark, type LoggedUpdate, mostMarks, type Snapshot, type Store } from '../store.ts'
import type { Database, Db } from './database.ts'

type LogOperations = Pick<Store, 'load' | 'log' | 'saveSnapshot' | 'loadAt' | 'timeline'>

const loggedColumns = 'seq, bytes AS "update", author, role, at'

/** The append-only log of accepted updates with its marks and snapshots; appending: append-queue.ts. */
export function updateLog(db: Database): LogOperations {
  const after = (document: string, afterSeq: number, limit: number | null) =>
    db.rows<LoggedUpdate>(
      `SELECT ${loggedColumns} FROM updates WHERE document = $1 AND seq > $2 ORDER BY seq LIMIT $3`,
      [document, afterSeq, limit],
    )
  return {
    load: async (document) => {
      const [snapshot = null] = await db.rows<Snapshot>(
        'SELECT seq, bytes AS state FROM snapshots WHERE document = $1',
        [document],
      )
      const updates = await after(document, snapshot?.seq ?? 0, null)
      // Last: an owner more than there are updates does no harm, one too few would be taken for nobody's.
      const owners = await db.rows<{ client: number; participant: ParticipantId }>(
        'SELECT client, participant FROM client_owners WHERE document = $1',
        [document],
      )
      return {
        snapshot,
        updates,
        clientOwners: new Map(owners.map(({ client, participant }) => [client, participant])),
      }
    },
    log: after,
    saveSnapshot: (document, snapshot) => db.whole((one) => saveSnapshot(one, document, snapshot)),
    loadAt: async (document, at) => {
      // The greatest number and not the latest time: a clock that was set back must not hide what came before.
      const [found] = await db.rows<{ seq: number }>(
        'SELECT coalesce(max(seq), 0) AS seq FROM updates WHERE document = $1 AND at <= $2',
        [document, at],
      )
      const last = found?.seq ?? 0
      const [snapshot = null] = await db.rows<Snapshot>(
        'SELECT seq, bytes AS state FROM checkpoints WHERE document = $1 AND seq <= $2 ORDER BY seq DESC LIMIT 1',
        [document, last],
      )
      const from = snapshot?.seq ?? 0
      return { snapshot, updates: last > from ? await after(document, from, last - from) : [] }
    },
    timeline: async (document) => {
      const [extent] = await db.rows<{ firstAt: string | null; lastAt: string | null }>(
        'SELECT min(at) AS "firstAt", max(at) AS "lastAt" FROM updates WHERE document = $1',
        [document],
      )
      const marks = await db.rows<LoggedMark>(
        `SELECT m.kind, m.record, m.state, u.seq, u.at
         FROM marks m JOIN updates u ON u.document = m.document AND u.seq = m.seq
         WHERE m.document = $1 ORDER BY m.seq DESC, m.place DESC LIMIT ${mostMarks}`,
        [document],
      )
      return { ...(extent ?? { firstAt: null, lastAt: null }), marks: marks.reverse() }
    },
  }
}

/** Another process may have erased the case, or withdrawn something from its history: it must not come back as a state. */
const isLogged = `EXISTS (SELECT FROM documents WHERE document = $1 AND seq >= $2)
  AND NOT EXISTS (SELECT FROM withdrawals WHERE document = $1 AND finished > $2)`

async function saveSnapshot(db: Db, document: string, { seq, state }: Snapshot): Promise<void> {
  const bytes = Buffer.from(state)
  // Waits for a withdrawal that is being finished.
  await db.rows('SELECT FROM documents WHERE document = $1 FOR SHARE', [document])
  await db.change(
    `INSERT INTO snapshots (document, seq, bytes) SELECT $1, $2, $3 WHERE ${isLogged}
     ON CONFLICT (document) DO UPDATE SET seq = excluded.seq, bytes = excluded.bytes WHERE excluded.seq > snapshots.seq`,
    [document, seq, bytes],
  )
  // Another process may keep the same one at the same time.
  await db.change(
    `INSERT INTO checkpoints (document, seq, bytes)
     SELECT $1, $2, $3
     WHERE ${isLogged} AND $2 >= ${checkpointEvery} + (SELECT coalesce(max(seq), 0) FROM checkpoints WHERE document = $1)
     ON CONFLICT DO NOTHING`,
    [document, seq, bytes],
  )
}
