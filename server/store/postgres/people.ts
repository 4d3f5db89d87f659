import type { ParticipantId } from '../../../lib/board/identity.ts'
import { type ScopeColumns, toColumns, withScope } from '../scope-columns.ts'
import type { Grant, Invitation, Participant, Session, Store } from '../store.ts'
import type { Database, Db } from './database.ts'

type PeopleOperations = Pick<
  Store,
  | 'createInvitation'
  | 'findInvitation'
  | 'listInvitations'
  | 'revokeInvitation'
  | 'join'
  | 'createParticipant'
  | 'findParticipant'
  | 'listGrants'
  | 'listGrantsCovering'
  | 'countOwners'
  | 'findSession'
  | 'touchSession'
  | 'endSession'
>

type InvitationRow = Omit<Invitation, 'scope'> & ScopeColumns
type GrantRow = Omit<Grant, 'scope'> & ScopeColumns
type GranteeRow = GrantRow & { name: string; affiliation: string; createdAt: string }

const invitationColumns = `id, token_hash AS "tokenHash", label, role, scope_kind AS "scopeKind",
  scope_id AS "scopeId", created_at AS "createdAt", expires_at AS "expiresAt", access_until AS "accessUntil",
  revoked_at AS "revokedAt", uses`

const grantColumns = `g.participant, g.scope_kind AS "scopeKind", g.scope_id AS "scopeId", g.role,
  g.granted_at AS "grantedAt", g.expires_at AS "expiresAt", g.invitation`

const standing = 'FROM grants g JOIN invitations i ON i.id = g.invitation AND i.revoked_at IS NULL'

/** Invitations, who came in by them, and their sessions. */
export function people(db: Database): PeopleOperations {
  return {
    ...invitationRows(db),
    ...grantRows(db),
    ...participantRows(db),
    join: (joining) => db.whole((one) => join(one, joining)),
  }
}

function invitationRows(
  db: Db,
): Pick<Store, 'createInvitation' | 'findInvitation' | 'listInvitations' | 'revokeInvitation'> {
  return {
    createInvitation: async ({ id, tokenHash, label, role, scope, createdAt, expiresAt, accessUntil }) => {
      const { scopeKind, scopeId } = toColumns(scope)
      await db.change(
        `INSERT INTO invitations
           (id, token_hash, label, role, scope_kind, scope_id, created_at, expires_at, access_until)
         VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9)`,
        [id, tokenHash, label, role, scopeKind, scopeId, createdAt, expiresAt, accessUntil],
      )
    },
    findInvitation: async (tokenHash) => {
      const sql = `SELECT ${invitationColumns} FROM invitations WHERE token_hash = $1`
      const [row] = await db.rows<InvitationRow>(sql, [tokenHash])
      return row === undefined ? null : withScope(row)
    },
    listInvitations: async () => {
      const sql = `SELECT ${invitationColumns} FROM invitations ORDER BY created_at DESC, id`
      return (await db.rows<InvitationRow>(sql)).map(withScope)
    },
    revokeInvitation: async (id, at) => {
      const sql = 'UPDATE invitations SET revoked_at = coalesce(revoked_at, $2) WHERE id = $1'
      if ((await db.change(sql, [id, at])) === 0) return null
      const grantees = 'SELECT participant FROM grants WHERE invitation = $1'
      return (await db.rows<{ participant: ParticipantId }>(grantees, [id])).map(({ participant }) => participant)
    },
  }
}

function grantRows(db: Db): Pick<Store, 'listGrants' | 'listGrantsCovering' | 'countOwners'> {
  return {
    listGrants: async (participant) => {
      const sql = `SELECT ${grantColumns} ${standing} WHERE g.participant = $1 ORDER BY g.granted_at DESC, g.place DESC`
      return (await db.rows<GrantRow>(sql, [participant])).map(withScope)
    },
    listGrantsCovering: async (caseId) => {
      const rows = await db.rows<GranteeRow>(
        `SELECT ${grantColumns}, p.name, p.affiliation, p.created_at AS "createdAt" ${standing}
         JOIN participants p ON p.id = g.participant
         WHERE g.scope_kind = 'installation'
            OR (g.scope_kind = 'case' AND g.scope_id = $1)
            OR (g.scope_kind = 'programme' AND g.scope_id = (SELECT programme FROM cases WHERE id = $1))
         ORDER BY g.granted_at DESC, g.place DESC`,
        [caseId],
      )
      return rows.map(({ name, affiliation, createdAt, ...grant }) => ({
        grant: withScope(grant),
        participant: { id: grant.participant, name, affiliation, createdAt },
      }))
    },
    countOwners: async () => {
      const sql = `SELECT count(DISTINCT g.participant) AS count ${standing} WHERE g.scope_kind = 'installation'`
      return (await db.rows<{ count: number }>(sql))[0]?.count ?? 0
    },
  }
}

async function insertParticipant(db: Db, { id, name, affiliation, createdAt }: Participant): Promise<void> {
  await db.change('INSERT INTO participants (id, name, affiliation, created_at) VALUES ($1, $2, $3, $4)', [
    id,
    name,
    affiliation,
    createdAt,
  ])
}

async function join(db: Db, { grant, newParticipant, newSession }: Parameters<Store['join']>[0]): Promise<void> {
  if (newParticipant !== null) await insertParticipant(db, newParticipant)
  const { participant, invitation, role, grantedAt, expiresAt } = grant
  const { scopeKind, scopeId } = toColumns(grant.scope)
  // Joining twice with one link is one grant, as new as the last time: the newest grant decides the role.
  await db.change('DELETE FROM grants WHERE participant = $1 AND invitation = $2', [participant, invitation])
  await db.change(
    `INSERT INTO grants (participant, invitation, scope_kind, scope_id, role, granted_at, expires_at)
     VALUES ($1, $2, $3, $4, $5, $6, $7)`,
    [participant, invitation, scopeKind, scopeId, role, grantedAt, expiresAt],
  )
  await db.change('UPDATE invitations SET uses = uses + 1 WHERE id = $1', [invitation])
  if (newSession === null) return
  const { hash, createdAt, lastSeen } = newSession
  await db.change('INSERT INTO sessions (hash, participant, created_at, last_seen) VALUES ($1, $2, $3, $4)', [
    hash,
    newSession.participant,
    createdAt,
    lastSeen,
  ])
}

function participantRows(
  db: Db,
): Pick<Store, 'createParticipant' | 'findParticipant' | 'findSession' | 'touchSession' | 'endSession'> {
  return {
    createParticipant: (created) => insertParticipant(db, created),
    findParticipant: async (id) => {
      const sql = 'SELECT id, name, affiliation, created_at AS "createdAt" FROM participants WHERE id = $1'
      return (await db.rows<Participant>(sql, [id]))[0] ?? null
    },
    findSession: async (hash) => {
      const sql = `SELECT hash, participant, created_at AS "createdAt", last_seen AS "lastSeen"
        FROM sessions WHERE hash = $1`
      return (await db.rows<Session>(sql, [hash]))[0] ?? null
    },
    touchSession: async (hash, at) => {
      await db.change('UPDATE sessions SET last_seen = $2 WHERE hash = $1', [hash, at])
    },
    endSession: async (hash) => {
      await db.change('DELETE FROM sessions WHERE hash = $1', [hash])
    },
  }
}
