import type { ParticipantId } from '../../../lib/board/identity.ts'
import type { Role } from '../../../lib/board/roles.ts'
import type { LoggedUpdate, Snapshot, UpdateEntry } from '../store.ts'
import { StoreConflict } from '../store.ts'
import type { Db } from './database.ts'
import type { Synchronous } from './operations.ts'

type LogOperations = Synchronous<'append' | 'load' | 'log' | 'saveSnapshot'>

const loggedColumns = 'seq, bytes AS "update", author, role, at'

/** The append-only log of accepted updates, its snapshots, and who owns which CRDT client id. */
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
  const owner = db.prepare<[string, number], { participant: ParticipantId }>(
    'SELECT participant FROM client_owners WHERE document = ? AND client = ?',
  )
  const owners = db.prepare<[string], { client: number; participant: ParticipantId }>(
    'SELECT client, participant FROM client_owners WHERE document = ?',
  )
  const after = db.prepare<[string, number, number], LoggedUpdate>(
    `SELECT ${loggedColumns} FROM updates WHERE document = ? AND seq > ? ORDER BY seq LIMIT ?`,
  )
  const snapshot = db.prepare<[string], Snapshot>('SELECT seq, bytes AS state FROM snapshots WHERE document = ?')
  const putSnapshot = db.prepare<[string, number, Uint8Array]>(
    `INSERT INTO snapshots (document, seq, bytes) VALUES (?, ?, ?)
     ON CONFLICT (document) DO UPDATE SET seq = excluded.seq, bytes = excluded.bytes WHERE excluded.seq > snapshots.seq`,
  )

  function claimClients({ document, clients, author, role }: UpdateEntry): void {
    for (const client of clients) {
      if (claim.run(document, client, author, role).changes === 1) continue
      if (owner.get(document, client)?.participant !== author) {
        throw new StoreConflict(`Client id ${client} of ${document} belongs to another participant.`)
      }
    }
  }

  function appendOne(entry: UpdateEntry): number {
    claimClients(entry)
    const seq = (lastSeq.get(entry.document)?.seq ?? 0) + 1
    insert.run(entry.document, seq, entry.update, entry.author, entry.role, entry.at)
    return seq
  }

  const noLimit = -1
  return {
    append: (entries) => entries.map(appendOne),
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
      putSnapshot.run(document, seq, state)
    },
  }
}
