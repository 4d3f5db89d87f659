import type { ParticipantId } from '../../../lib/board/identity.ts'
import type { Role } from '../../../lib/board/roles.ts'
import { type ScopeColumns, toColumns, withScope } from '../scope-columns.ts'
import type { Grant, Invitation, Participant, Scope, Session } from '../store.ts'
import type { Db } from './database.ts'
import type { Synchronous } from './operations.ts'

type PeopleOperations = Synchronous<
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

function toGrantee({ name, affiliation, createdAt, ...grant }: GranteeRow): { grant: Grant; participant: Participant } {
  return { grant: withScope(grant), participant: { id: grant.participant, name, affiliation, createdAt } }
}

const invitationColumns = `id, token_hash AS tokenHash, label, role, scope_kind AS scopeKind, scope_id AS scopeId,
  created_at AS createdAt, expires_at AS expiresAt, access_until AS accessUntil, revoked_at AS revokedAt, uses`

const grantColumns = `g.participant, g.scope_kind AS scopeKind, g.scope_id AS scopeId, g.role,
  g.granted_at AS grantedAt, g.expires_at AS expiresAt, g.invitation`

const standing = 'FROM grants g JOIN invitations i ON i.id = g.invitation AND i.revoked_at IS NULL'

/** Invitations, who came in by them, and their sessions. */
export function people(db: Db): PeopleOperations {
  return { ...invitationRows(db), ...grantRows(db), ...participantRows(db) }
}

function invitationRows(
  db: Db,
): Synchronous<'createInvitation' | 'findInvitation' | 'listInvitations' | 'revokeInvitation'> {
  const insert = db.prepare(
    `INSERT INTO invitations (id, token_hash, label, role, scope_kind, scope_id, created_at, expires_at, access_until)
     VALUES (@id, @tokenHash, @label, @role, @scopeKind, @scopeId, @createdAt, @expiresAt, @accessUntil)`,
  )
  const byHash = db.prepare<[string], InvitationRow>(
    `SELECT ${invitationColumns} FROM invitations WHERE token_hash = ?`,
  )
  const all = db.prepare<[], InvitationRow>(`SELECT ${invitationColumns} FROM invitations ORDER BY created_at DESC, id`)
  const revoke = db.prepare<[string, string]>(
    'UPDATE invitations SET revoked_at = coalesce(revoked_at, ?) WHERE id = ?',
  )
  const grantees = db.prepare<[string], { participant: ParticipantId }>(
    'SELECT participant FROM grants WHERE invitation = ?',
  )
  return {
    createInvitation: ({ scope, ...rest }) => {
      insert.run({ ...rest, ...toColumns(scope) })
    },
    findInvitation: (tokenHash) => {
      const row = byHash.get(tokenHash)
      return row === undefined ? null : withScope(row)
    },
    listInvitations: () => all.all().map(withScope),
    revokeInvitation: (id, at) =>
      revoke.run(at, id).changes === 0 ? null : grantees.all(id).map(({ participant }) => participant),
  }
}

function grantRows(db: Db): Synchronous<'listGrants' | 'listGrantsCovering' | 'countOwners'> {
  const ofParticipant = db.prepare<[ParticipantId], GrantRow>(
    `SELECT ${grantColumns} ${standing} WHERE g.participant = ? ORDER BY g.granted_at DESC, g.rowid DESC`,
  )
  const covering = db.prepare<{ caseId: string }, GranteeRow>(
    `SELECT ${grantColumns}, p.name, p.affiliation, p.created_at AS createdAt ${standing}
     JOIN participants p ON p.id = g.participant
     WHERE g.scope_kind = 'installation'
        OR (g.scope_kind = 'case' AND g.scope_id = @caseId)
        OR (g.scope_kind = 'programme' AND g.scope_id = (SELECT programme FROM cases WHERE id = @caseId))
     ORDER BY g.granted_at DESC, g.rowid DESC`,
  )
  const owners = db.prepare<[], { count: number }>(
    `SELECT count(DISTINCT g.participant) AS count ${standing} WHERE g.scope_kind = 'installation'`,
  )
  return {
    listGrants: (participant) => ofParticipant.all(participant).map(withScope),
    listGrantsCovering: (caseId) => covering.all({ caseId }).map(toGrantee),
    countOwners: () => owners.get()?.count ?? 0,
  }
}

function participantRows(
  db: Db,
): Synchronous<'join' | 'createParticipant' | 'findParticipant' | 'findSession' | 'touchSession' | 'endSession'> {
  const insertParticipant = db.prepare<Participant>(
    'INSERT INTO participants (id, name, affiliation, created_at) VALUES (@id, @name, @affiliation, @createdAt)',
  )
  const participant = db.prepare<[ParticipantId], Participant>(
    'SELECT id, name, affiliation, created_at AS createdAt FROM participants WHERE id = ?',
  )
  // Joining twice with one link is one grant, as new as the last time: the newest grant decides the role.
  const deleteGrant = db.prepare<[ParticipantId, string]>('DELETE FROM grants WHERE participant = ? AND invitation = ?')
  const insertGrant = db.prepare<Omit<Grant, 'scope'> & { scopeKind: Scope['kind']; scopeId: string; role: Role }>(
    `INSERT INTO grants (participant, invitation, scope_kind, scope_id, role, granted_at, expires_at)
     VALUES (@participant, @invitation, @scopeKind, @scopeId, @role, @grantedAt, @expiresAt)`,
  )
  const countUse = db.prepare<[string]>('UPDATE invitations SET uses = uses + 1 WHERE id = ?')
  const insertSession = db.prepare<Session>(
    'INSERT INTO sessions (hash, participant, created_at, last_seen) VALUES (@hash, @participant, @createdAt, @lastSeen)',
  )
  const session = db.prepare<[string], Session>(
    'SELECT hash, participant, created_at AS createdAt, last_seen AS lastSeen FROM sessions WHERE hash = ?',
  )
  const touch = db.prepare<[string, string]>('UPDATE sessions SET last_seen = ? WHERE hash = ?')
  const end = db.prepare<[string]>('DELETE FROM sessions WHERE hash = ?')
  return {
    join: ({ grant: { scope, ...grant }, newParticipant, newSession }) => {
      if (newParticipant !== null) insertParticipant.run(newParticipant)
      deleteGrant.run(grant.participant, grant.invitation)
      insertGrant.run({ ...grant, ...toColumns(scope) })
      countUse.run(grant.invitation)
      if (newSession !== null) insertSession.run(newSession)
    },
    createParticipant: (created) => {
      insertParticipant.run(created)
    },
    findParticipant: (id) => participant.get(id) ?? null,
    findSession: (hash) => session.get(hash) ?? null,
    touchSession: (hash, at) => {
      touch.run(at, hash)
    },
    endSession: (hash) => {
      end.run(hash)
    },
  }
}
