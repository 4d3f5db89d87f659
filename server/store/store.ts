import { documentName } from '../../lib/board/documents.ts'
import type { ParticipantId } from '../../lib/board/identity.ts'
import type { Role } from '../../lib/board/roles.ts'
import type { CaseProjection } from '../../lib/interchange/api.ts'

/** What the server keeps, and what it promises about keeping it. Bytes, rows and sequence numbers: nothing of CRDTs, sockets or rights. */

/** One accepted update on its way into the log. */
export interface UpdateEntry {
  readonly document: string
  readonly update: Uint8Array
  readonly author: ParticipantId
  readonly role: Role
  /** ISO 8601 instant. */
  readonly at: string
  /** CRDT client ids that the update writes with. The first participant to use one owns it from then on. */
  readonly clients: readonly number[]
}

export interface LoggedUpdate {
  readonly seq: number
  readonly update: Uint8Array
  readonly author: ParticipantId
  readonly role: Role
  readonly at: string
}

export interface Snapshot {
  readonly seq: number
  readonly state: Uint8Array
}

export interface StoredDocument {
  readonly snapshot: Snapshot | null
  /** Everything after the snapshot (or everything), in order of `seq`. */
  readonly updates: readonly LoggedUpdate[]
  readonly clientOwners: ReadonlyMap<number, ParticipantId>
}

export interface Programme {
  readonly id: string
  readonly label: string
  readonly createdAt: string
}

/** A case as it was created. `rank` is a fractional key: the order within its programme. */
export interface NewCase {
  readonly id: string
  readonly programme: string
  readonly label: string
  readonly rank: string
  readonly createdAt: string
}

/** A case with its projection, which is kept in columns so that lists and series never open documents. */
export type StoredCase = NewCase & CaseProjection

export interface Participant {
  readonly id: ParticipantId
  readonly name: string
  readonly affiliation: string
  readonly createdAt: string
}

/** What an invitation or a grant covers. `installation` is the owner's: everything, as moderator. */
export type Scope =
  | { readonly kind: 'installation' }
  | { readonly kind: 'programme'; readonly id: string }
  | { readonly kind: 'case'; readonly id: string }

export interface Invitation {
  readonly id: string
  /** SHA-256 of the token, hexadecimal. The token itself is nowhere in the store. */
  readonly tokenHash: string
  readonly label: string
  readonly role: Role
  readonly scope: Scope
  readonly createdAt: string
  /** After this instant nobody can join with the link any more. */
  readonly expiresAt: string | null
  /** After this instant those who joined with it have no access any more. */
  readonly accessUntil: string | null
  readonly revokedAt: string | null
  readonly uses: number
}

export type NewInvitation = Omit<Invitation, 'revokedAt' | 'uses'>

export interface Grant {
  readonly participant: ParticipantId
  readonly scope: Scope
  readonly role: Role
  readonly grantedAt: string
  readonly expiresAt: string | null
  readonly invitation: string
}

export interface Session {
  readonly hash: string
  readonly participant: ParticipantId
  readonly createdAt: string
  readonly lastSeen: string
}

/** One person accepting one invitation: everything that it writes, so that it is written whole or not at all. */
export interface Joining {
  readonly grant: Grant
  readonly newParticipant: Participant | null
  readonly newSession: Session | null
}

export interface CaseAuthor {
  readonly participant: Participant
  readonly role: Role
}

/**
 * Rules, each held by the contract suite in tests/unit/store/store-contract.ts:
 * - S1 A resolved promise means stored: it survives the death of the process.
 * - S2 Sequence numbers start at 1 and have no gaps, per document, in the order of the calls.
 * - S3 A rejected call has written nothing, except after an outage in mid-commit, where only reloading tells.
 * - S4 A client id belongs to the participant who used it first; an append with somebody else's is refused whole.
 * - S5 Snapshots never shorten the log.
 * - S6 Erasing a case leaves no update, snapshot, client, invitation, grant or row of it.
 *
 * Calls reject with StoreConflict when the rows forbid it, StoreOutage when the disk or its keeper failed.
 */
export interface Store {
  append(entries: readonly UpdateEntry[]): Promise<readonly number[]>
  load(document: string): Promise<StoredDocument>
  /** At most `limit` updates with `seq` above `afterSeq`, in order. */
  log(document: string, afterSeq: number, limit: number): Promise<readonly LoggedUpdate[]>
  saveSnapshot(document: string, snapshot: Snapshot): Promise<void>

  createProgramme(programme: Programme): Promise<void>
  listProgrammes(): Promise<readonly Programme[]>
  createCase(created: NewCase): Promise<void>
  findCase(id: string): Promise<StoredCase | null>
  /** In order of programme and rank. */
  listCases(): Promise<readonly StoredCase[]>
  saveProjection(caseId: string, projection: CaseProjection): Promise<void>
  eraseCase(id: string): Promise<void>
  /** Everyone who ever wrote in the case, with a role that they wrote in. */
  listAuthors(caseId: string): Promise<readonly CaseAuthor[]>

  createInvitation(invitation: NewInvitation): Promise<void>
  findInvitation(tokenHash: string): Promise<Invitation | null>
  listInvitations(): Promise<readonly Invitation[]>
  /** Revokes the invitation and with it the grants made by it. @returns whose grants these were; null if unknown. */
  revokeInvitation(id: string, at: string): Promise<readonly ParticipantId[] | null>

  join(joining: Joining): Promise<void>
  createParticipant(participant: Participant): Promise<void>
  findParticipant(id: ParticipantId): Promise<Participant | null>
  /** Grants whose invitation is not revoked, newest first; expiry is for the caller to judge. */
  listGrants(participant: ParticipantId): Promise<readonly Grant[]>
  /** As `listGrants`, for everyone whose grant covers the case. */
  listGrantsCovering(caseId: string): Promise<readonly { readonly grant: Grant; readonly participant: Participant }[]>
  countOwners(): Promise<number>

  findSession(hash: string): Promise<Session | null>
  touchSession(hash: string, at: string): Promise<void>
  endSession(hash: string): Promise<void>

  /** Waits for what was asked before, then releases file and thread. Later calls reject. */
  close(): Promise<void>
}

/** The rows that are there forbid the call: a duplicate, a missing parent, a client id of somebody else. */
export class StoreConflict extends Error {
  override name = 'StoreConflict'
}

/** The disk, the database or its thread failed; `cause` says how. What was in flight may or may not be stored. */
export class StoreOutage extends Error {
  override name = 'StoreOutage'
}

export const documentsOfCase = (caseId: string): readonly [string, string] => [
  documentName('record', caseId),
  documentName('floor', caseId),
]
