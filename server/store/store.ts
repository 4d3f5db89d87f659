import { documentName } from '../../lib/board/documents.ts'
import type { ParticipantId } from '../../lib/board/identity.ts'
import type { PictureType } from '../../lib/board/records/picture.ts'
import type { Ballot } from '../../lib/board/records/vote.ts'
import type { KindName } from '../../lib/board/records.ts'
import type { Role } from '../../lib/board/roles.ts'
import type { CaseProjection, CaseSlot } from '../../lib/interchange/api.ts'
import type { CaseOutcome } from '../../lib/interchange/outcome-columns.ts'

/** What the server keeps, and what it promises about keeping it. Bytes, rows and sequence numbers: nothing of CRDTs, sockets or rights. */

/** Something that an update did and that a time line shows. The words are opaque to the store. */
export interface Mark {
  readonly kind: string
  readonly record: string
  readonly state: string
}

export interface LoggedMark extends Mark {
  readonly seq: number
  /** ISO 8601 instant of the update that did it. */
  readonly at: string
}

/** How far a document's log reaches and what happened in it; null while nothing was written. */
export interface Timeline {
  readonly firstAt: string | null
  readonly lastAt: string | null
  /** In order of `seq`; of very many the newest `mostMarks`. */
  readonly marks: readonly LoggedMark[]
}

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
  readonly marks?: readonly Mark[]
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

/** What a document held at an instant: apply the snapshot, then the updates. */
export type StateAt = Omit<StoredDocument, 'clientOwners'>

/**
 * Of the snapshots, those at least so many updates apart are kept for good: from them an earlier state is opened. Fewer make
 * that slower (tests/bench/rewind.ts), more make the file larger, since each holds the whole document as it was.
 */
export const checkpointEvery = 1000

/** Marks of one document that a time line is given: far more than anybody can tell apart on it. */
export const mostMarks = 5000

export interface Programme {
  readonly id: string
  readonly label: string
  readonly createdAt: string
}

/** Which case is on. `lastOn` is the case that is on, or was on last: null before the first, and when it was erased. */
export interface OnNow {
  readonly isOn: boolean
  readonly lastOn: string | null
  /** ISO 8601 instant of the last change; null before the first. */
  readonly since: string | null
}

export type StoredProgramme = Programme & { readonly onNow: OnNow }

/** A case as it was created. `rank` is a fractional key: the order within its programme. */
export interface NewCase {
  readonly id: string
  readonly programme: string
  readonly label: string
  readonly rank: string
  readonly createdAt: string
}

/** A case with its place in the day and its projection, which is kept in columns so that lists and series never open documents. */
export type StoredCase = NewCase & CaseSlot & CaseProjection

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

/** What went with a case when it was erased, as numbers of rows. */
export interface ErasureCounts {
  readonly updates: number
  readonly marks: number
  /** snapshots and checkpoints */
  readonly states: number
  readonly ballots: number
  readonly withdrawals: number
  readonly unnamedAuthors: number
  readonly pictures: number
  readonly invitations: number
  readonly grants: number
}

/** Counts as a row keeps them; a receipt from before there were photographs counts none. */
export const readCounts = (json: string): ErasureCounts => ({ pictures: 0, ...JSON.parse(json) })

/** The receipt of an erasure: ids, numbers, and who did it when. It says nothing of the patient, and it stays. */
export interface Erasure {
  readonly id: string
  readonly caseId: string
  readonly programme: string
  readonly by: ParticipantId
  /** ISO 8601 instant. */
  readonly at: string
  readonly counts: ErasureCounts
}

/** One person's ballot in one vote of a case. */
export interface CastBallot {
  readonly participant: ParticipantId
  readonly ballot: Ballot
}

export interface BallotEntry extends CastBallot {
  readonly caseId: string
  readonly vote: string
  /** ISO 8601 instant. */
  readonly at: string
}

/** Whose question it is that was asked without a name. */
export interface UnnamedAuthor {
  readonly caseId: string
  /** the author's id that stands in the document */
  readonly author: ParticipantId
  readonly participant: ParticipantId
  /** ISO 8601 instant of the operation that the asker was looking at; null where their video delay is not measured */
  readonly pictureAt: string | null
}

/**
 * Something taken back from everybody. What it was is kept here for the owner, and nowhere else once the withdrawal is
 * finished.
 */
export interface Withdrawal {
  readonly id: string
  readonly caseId: string
  readonly document: string
  readonly records: readonly { readonly kind: KindName; readonly id: string }[]
  /** the records as JSON */
  readonly content: string
  readonly reason: string
  readonly by: ParticipantId
  readonly role: Role
  /** ISO 8601 instant. */
  readonly at: string
}

/** The bytes of a photograph; what is said of them is a record of the case. */
export interface StoredPicture {
  readonly mediaType: PictureType
  readonly bytes: Uint8Array
}

/** What a case gave to the series. `revision` rises with every change of any case, so that a reader asks for what came since. */
export type KeptOutcome = CaseOutcome & { readonly caseId: string; readonly revision: number }

/** What replaces bytes of a document's log and of its kept states, under the same numbers. */
export interface RewrittenHistory {
  readonly updates: readonly { readonly seq: number; readonly update: Uint8Array }[]
  readonly states: readonly Snapshot[]
  /** Numbers of all kept states that were looked at; one that came since was made of the history as it was. */
  readonly seen: readonly number[]
}

/**
 * Rules, each held by the contract suite in tests/unit/store/store-contract.ts:
 * - S1 A resolved promise means stored: it survives the death of the process.
 * - S2 Sequence numbers start at 1 and have no gaps, per document, in the order of the calls.
 * - S3 A rejected call has written nothing, except after an outage in mid-commit, where only reloading tells.
 * - S4 A client id belongs to the participant who used it first; an append with somebody else's is refused whole.
 * - S5 Snapshots never shorten the log.
 * - S6 Erasing a case leaves no update, mark, snapshot, checkpoint, client, ballot, withdrawal, unnamed
 *   author, picture, outcome, invitation, grant or row of it, and one receipt, written with it or not at all.
 * - S7 A state at an instant is that of the log up to the last update written until then, whatever checkpoints there are.
 * - S8 One ballot a person and vote, the last one; a closed vote takes none any more, and closing again gives the same.
 * - S9 An append that says what it was judged on is stored only if nothing came between; otherwise it is refused whole.
 * - S10 A finished withdrawal has replaced the bytes of log and kept states and removed the marks of its records, all at once;
 *   numbers, authors and times stay. A state of before, which another process held, is not kept any more. One that is not
 *   finished is found again after a restart.
 * - S11 An unnamed author belongs to one person for good.
 * - S12 Outcomes are read whole, in the order of their revisions; who has read up to one has missed none before it.
 * - S13 A picture is stored once and never replaced, for a case that is there. With its withdrawal finished its bytes are found
 *   under that alone.
 *
 * Calls reject with StoreConflict when the rows forbid it, StoreOutage when the disk or its keeper failed.
 */
export interface Store {
  /**
   * @param afterSeq number of the last update that these were judged on, which are then all of one document; 0 for none.
   * Rejects with StoreBehind when the log goes on beyond it. Left out, they are appended to whatever is there.
   * @returns their numbers
   */
  append(entries: readonly UpdateEntry[], afterSeq?: number): Promise<readonly number[]>
  load(document: string): Promise<StoredDocument>
  /** At most `limit` updates with `seq` above `afterSeq`, in order. */
  log(document: string, afterSeq: number, limit: number): Promise<readonly LoggedUpdate[]>
  /** Keeps the newest one for `load`, and every `checkpointEvery` updates one for `loadAt`. */
  saveSnapshot(document: string, snapshot: Snapshot): Promise<void>
  /** @param at ISO 8601 instant with milliseconds, in UTC */
  loadAt(document: string, at: string): Promise<StateAt>
  timeline(document: string): Promise<Timeline>

  createProgramme(programme: Programme): Promise<void>
  listProgrammes(): Promise<readonly StoredProgramme[]>
  /** Puts a case of the programme on, or none (`null`: between cases). Conflict when the programme has no such case. */
  bringOn(programme: string, caseId: string | null, at: string): Promise<void>
  /** Gives the programme's cases this order. Conflict unless `ids` names each of them once. */
  orderCases(programme: string, ids: readonly string[]): Promise<void>
  saveSlot(caseId: string, slot: CaseSlot): Promise<void>
  createCase(created: NewCase): Promise<void>
  findCase(id: string): Promise<StoredCase | null>
  /** In order of programme and rank. */
  listCases(): Promise<readonly StoredCase[]>
  saveProjection(caseId: string, projection: CaseProjection): Promise<void>
  eraseCase(id: string, receipt: Pick<Erasure, 'id' | 'by' | 'at'>): Promise<Erasure>
  /** Newest first. */
  listErasures(): Promise<readonly Erasure[]>
  /** Everyone who ever wrote in the case, with a role that they wrote in. */
  listAuthors(caseId: string): Promise<readonly CaseAuthor[]>

  /** Rejects with StoreConflict when the vote is closed. */
  castBallot(entry: BallotEntry): Promise<void>
  listBallots(caseId: string, vote: string): Promise<readonly CastBallot[]>
  /** From now on the vote takes no ballot. @returns those that count */
  closeBallots(caseId: string, vote: string): Promise<readonly CastBallot[]>

  /** Every state that is kept of the document: its checkpoints and the newest snapshot. */
  keptStates(document: string): Promise<readonly Snapshot[]>
  recordWithdrawal(withdrawal: Withdrawal): Promise<void>
  finishWithdrawal(id: string, history: RewrittenHistory): Promise<void>
  /** Those that were recorded and not finished, oldest first. */
  openWithdrawals(): Promise<readonly Withdrawal[]>
  /** Oldest first. */
  listWithdrawals(caseId: string): Promise<readonly Withdrawal[]>
  /** Rejects with StoreConflict when the author's id is taken. */
  addUnnamed(unnamed: UnnamedAuthor): Promise<void>
  listUnnamed(caseId: string): Promise<readonly UnnamedAuthor[]>

  /** Rejects with StoreConflict when the id is taken or there is no such case. */
  savePicture(caseId: string, id: string, picture: StoredPicture): Promise<void>
  /** null when there is none, or it was withdrawn */
  picture(caseId: string, id: string): Promise<StoredPicture | null>
  /** Takes away what was saved for a record that was not written after all. */
  dropPicture(caseId: string, id: string): Promise<void>
  /** What a finished withdrawal took back; null when it was no picture. */
  withdrawnPicture(caseId: string, withdrawal: string): Promise<StoredPicture | null>

  /** Puts what a case gave in the place of what it gave before. Conflict when there is no such case. */
  saveOutcome(caseId: string, outcome: CaseOutcome): Promise<void>
  /** At most `limit` outcomes with a revision above this one, in their order. An erased case is not told: it is gone. */
  outcomesSince(revision: number, limit: number): Promise<readonly KeptOutcome[]>
  /** At most `limit` cases of which no outcome was ever saved. */
  casesWithoutOutcome(limit: number): Promise<readonly string[]>

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

  /** Writes something that changes nothing, as durably as an edit; rejects while nothing can be stored. */
  tryWriting(): Promise<void>

  /** Waits for what was asked before, then releases file and thread. Later calls reject. */
  close(): Promise<void>
}

/** The rows that are there forbid the call: a duplicate, a missing parent, a client id of somebody else. */
export class StoreConflict extends Error {
  override name = 'StoreConflict'
}

/** Somebody else has written to the document since; read the log, judge again, and append again. */
export class StoreBehind extends Error {
  override name = 'StoreBehind'
}

/** The disk, the database or its thread failed; `cause` says how. What was in flight may or may not be stored. */
export class StoreOutage extends Error {
  override name = 'StoreOutage'
}

export const documentsOfCase = (caseId: string): readonly [string, string] => [
  documentName('record', caseId),
  documentName('floor', caseId),
]
