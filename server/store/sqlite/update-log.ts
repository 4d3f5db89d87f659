import type { ParticipantId } from '../../../lib/board/identity.ts'
import type { Role } from '../../../lib/board/roles.ts'
import type { LoggedMark, LoggedUpdate, Mark, Snapshot, UpdateEntry } from '../store.ts'
import { checkpointEvery, mostMarks, StoreBehind, StoreConflict } from '../store.ts'
import type { Db } from './database.ts'
import type { Synchronous } from './operations.ts'

type LogOperations = Synchronous<'append' | 'load' | 'log' | 'saveSnapshot' | 'loadAt' | 'timeline'>

const loggedColumns = 'seq, bytes AS "update", author, role, at'

/** The append-only log of accepted updates with its marks, its snapshots, and who owns which CRDT client id. */
export function updateLog(db: Db): LogOperations {
  const lastSeq = db.prepare<[string], { seq: number }>(
    'SELECT coalesce(max(seq), 0) AS seq FROM updates WHERE document = ?',
  )
  const insert = db.prepare<[string, number, Uint8Array, ParticipantId, Role, string]>(
    'INSERT INTO updates (document, seq, bytes, author, role, at) VALUES (?, ?, ?, ?, ?, ?)',
  )
  const claim = db.prepare<[string, number, ParticipantId, Role]>(
    'INSERT INTO client_owners (document, client, participant, role) VALUES (?, ?, ?, ?) ON CONFLICT DO NOTHING',
  )
  const rewrittenTo = db.prepare<[string], { seq: number }>(
    'SELECT coalesce(max(finished), 0) AS seq FROM withdrawals WHERE document = ?',
  )
  const owner = db.prepare<[string, number], { participant: ParticipantId }>(
    'SELECT participant FROM client_owners WHERE document = ? AND client = ?',
  )
  const owners = db.prepare<[string], { client: number; participant: ParticipantId }>(
    'SELECT client, participant FROM client_owners WHERE document = ?',
  )
  const after = db.prepare<[string, number, number], LoggedUpdate>(
    `SELECT ${loggedColumns} FROM updates WHERE document = ? AND seq > ? ORDER BY seq LIMIT ?`,
  )
  // The greatest number and not the latest time: a clock that was set back must not hide what came before.
  const lastSeqAt = db.prepare<[string, string], { seq: number }>(
    'SELECT coalesce(max(seq), 0) AS seq FROM updates WHERE document = ? AND at <= ?',
  )
  const extent = db.prepare<[string], { firstAt: string | null; lastAt: string | null }>(
    'SELECT min(at) AS firstAt, max(at) AS lastAt FROM updates WHERE document = ?',
  )
  const insertMark = db.prepare<[string, number, number, string, string, string]>(
    'INSERT INTO marks (document, seq, place, kind, record, state) VALUES (?, ?, ?, ?, ?, ?)',
  )
  const newestMarks = db.prepare<[string, number], LoggedMark>(
    `SELECT m.kind, m.record, m.state, u.seq, u.at FROM marks m JOIN updates u ON u.document = m.document AND u.seq = m.seq
     WHERE m.document = ? ORDER BY m.seq DESC, m.place DESC LIMIT ?`,
  )
  const snapshot = db.prepare<[string], Snapshot>('SELECT seq, bytes AS state FROM snapshots WHERE document = ?')
  const putSnapshot = db.prepare<[string, number, Uint8Array]>(
    `INSERT INTO snapshots (document, seq, bytes) VALUES (?, ?, ?)
     ON CONFLICT (document) DO UPDATE SET seq = excluded.seq, bytes = excluded.bytes WHERE excluded.seq > snapshots.seq`,
  )

  const checkpoint = db.prepare<[string, number], Snapshot>(
    'SELECT seq, bytes AS state FROM checkpoints WHERE document = ? AND seq <= ? ORDER BY seq DESC LIMIT 1',
  )
  const lastCheckpointSeq = db.prepare<[string], { seq: number }>(
    'SELECT coalesce(max(seq), 0) AS seq FROM checkpoints WHERE document = ?',
  )
  const putCheckpoint = db.prepare<[string, number, Uint8Array]>(
    'INSERT INTO checkpoints (document, seq, bytes) VALUES (?, ?, ?)',
  )

  function claimClients({ document, clients, author, role }: UpdateEntry): void {
    for (const client of clients) {
      if (claim.run(document, client, author, role).changes === 1) continue
      if (owner.get(document, client)?.participant !== author) {
        throw new StoreConflict(`Client id ${client} of ${document} belongs to another participant.`)
      }
    }
  }

  const lastOf = (document: string): number => lastSeq.get(document)?.seq ?? 0

  function refuseBehind(document: string, afterSeq: number): void {
    const last = lastOf(document)
    if (last !== afterSeq) throw new StoreBehind(`${document} is at ${last}; the update was judged on ${afterSeq}.`)
  }

  function appendOne(entry: UpdateEntry): number {
    claimClients(entry)
    const seq = lastOf(entry.document) + 1
    insert.run(entry.document, seq, entry.update, entry.author, entry.role, entry.at)
    for (const [place, mark] of (entry.marks ?? []).entries()) putMark(entry.document, seq, place, mark)
    return seq
  }

  function putMark(document: string, seq: number, place: number, { kind, record, state }: Mark): void {
    insertMark.run(document, seq, place, kind, record, state)
  }

  const noLimit = -1
  return {
    append: (entries, afterSeq) => {
      const [first] = entries
      if (first !== undefined && afterSeq !== undefined) refuseBehind(first.document, afterSeq)
      return entries.map(appendOne)
    },
    load: (document) => {
      const found = snapshot.get(document) ?? null
      return {
        snapshot: found,
        updates: after.all(document, found?.seq ?? 0, noLimit),
        clientOwners: new Map(owners.all(document).map(({ client, participant }) => [client, participant])),
      }
    },
    log: (document, afterSeq, limit) => after.all(document, afterSeq, limit),
    saveSnapshot: (document, { seq, state }) => {
      if (seq < (rewrittenTo.get(document)?.seq ?? 0)) return
      putSnapshot.run(document, seq, state)
      const kept = lastCheckpointSeq.get(document)?.seq ?? 0
      if (seq >= kept + checkpointEvery) putCheckpoint.run(document, seq, state)
    },
    loadAt: (document, at) => {
      const last = lastSeqAt.get(document, at)?.seq ?? 0
      const nearest = checkpoint.get(document, last) ?? null
      const from = nearest?.seq ?? 0
      return { snapshot: nearest, updates: last > from ? after.all(document, from, last - from) : [] }
    },
    timeline: (document) => ({
      ...(extent.get(document) ?? { firstAt: null, lastAt: null }),
      marks: newestMarks.all(document, mostMarks).reverse(),
    }),
  }
}
