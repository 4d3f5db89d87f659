import * as Y from 'yjs'
import type { ParticipantId } from '../../lib/board/identity.ts'
import type { Sender } from '../../lib/board/judge.ts'
import type { DocumentKind } from '../../lib/board/records.ts'
import type { Refusal } from '../../lib/board/refusals.ts'
import { writersOfDocument } from '../../lib/board/roles.ts'
import type { Change, TableView } from '../../lib/board/rules.ts'
import { closeCode } from '../../lib/board/wire.ts'
import { Proposal } from '../guard/proposal.ts'
import type { Meter } from '../metrics/meter.ts'
import { type LoggedUpdate, type Store, type StoredDocument, StoreOutage, type UnnamedAuthor } from '../store/store.ts'
import type { JudgedEdit, Pending } from './edit.ts'
import { stateFrame, updateFrame } from './frames.ts'
import { limits } from './limits.ts'
import { Pace } from './pace.ts'
import { RoomPresence } from './presence.ts'
import type { Session } from './session.ts'
import { Storing } from './storing.ts'

export interface RoomEvents {
  /** After records of this document changed and were stored, here or by another process. */
  changed(room: Room): void
  /** Whether other processes may write to the same log. */
  readonly othersWrite: boolean
  /** The log reaches so far by an append of this process. */
  appended(room: Room, seq: number): void
  /** People of this process point or type: what others are told of it; undefined where there are no others. */
  readonly pointed: ((states: Uint8Array) => void) | undefined
  emptied(room: Room): void
  outage(room: Room, error: unknown): void
  /** An edit was refused; `by` is not told of whoever asked without their name. */
  readonly refused: (code: string, by: ParticipantId | undefined) => void
  readonly meter: Meter
}

/** A document as one update, and the frame that sends it, in the same bytes. */
interface Whole {
  readonly state: Uint8Array
  readonly frame: Uint8Array
}

function wholeOf(state: Uint8Array): Whole {
  const frame = stateFrame(state)
  return { frame, state: frame.subarray(frame.length - state.length) }
}

/**
 * One document and everybody who has it open. Keeps the order of guarantees: checked, then stored, then shown (R1).
 * `authority` is what is stored and shown; `proposal` runs ahead of it by what is being stored.
 */
export class Room {
  readonly name: string
  readonly kind: DocumentKind
  readonly caseId: string
  readonly presence: RoomPresence
  readonly sessions = new Set<Session>()
  private readonly store: Store
  private readonly events: RoomEvents
  private readonly authority = new Y.Doc()
  private readonly proposal: Proposal
  private readonly unnamed = new Map<ParticipantId, ParticipantId>()
  private readonly pace = new Pace()
  private readonly owners: Map<number, ParticipantId>
  private readonly storing: Storing
  private readonly ticker: NodeJS.Timeout
  private whole: Whole | undefined
  /** what was shown since the whole state was encoded */
  private since: Uint8Array[] = []
  private seq: number
  private snapshotSeq: number
  private closed = false

  constructor(
    place: { name: string; kind: DocumentKind; caseId: string },
    found: StoredDocument,
    store: Store,
    events: RoomEvents,
    unnamed: readonly UnnamedAuthor[] = [],
  ) {
    this.name = place.name
    this.kind = place.kind
    this.caseId = place.caseId
    this.store = store
    this.events = events
    this.owners = new Map(found.clientOwners)
    this.snapshotSeq = found.snapshot?.seq ?? 0
    this.seq = found.updates.at(-1)?.seq ?? this.snapshotSeq
    const updates = [
      ...(found.snapshot === null ? [] : [found.snapshot.state]),
      ...found.updates.map(({ update }) => update),
    ]
    this.authority.transact(() => {
      for (const update of updates) Y.applyUpdate(this.authority, update)
    })
    this.learn(unnamed)
    this.proposal = new Proposal(this.kind, [this.state()], this.unnamed)
    this.storing = new Storing(
      {
        document: this.name,
        store,
        proposal: this.proposal,
        owners: this.owners,
        othersWrite: events.othersWrite,
        state: () => this.state(),
        stored: (batch, seq) => this.stored(batch, seq),
        followed: (logged) => this.followed(logged),
        tooOften: (edit, changes) => this.tooOften(edit, changes),
        beforeFollowing: () => this.beforeFollowing(),
        failed: (error) => this.fail(error),
        refusedUnnamed: (code) => events.refused(code, undefined),
        meter: events.meter,
      },
      this.seq,
    )
    this.presence = new RoomPresence({
      show: (frame) => {
        for (const session of this.sessions) session.deliverPresence(frame)
      },
      pass: events.pointed,
    })
    this.ticker = setInterval(() => this.catchUpReaders(), limits.rosterTickMs / 4)
  }

  get tables(): TableView {
    return this.proposal.tables
  }

  enter(session: Session): void {
    this.sessions.add(session)
    const asked = this.mayWrite(session) ? Y.encodeStateVector(this.authority) : undefined
    session.greet(asked, this.presence.all())
  }

  leave(session: Session): void {
    this.presence.leave(session)
    if (this.sessions.delete(session) && this.sessions.size === 0) this.events.emptied(this)
  }

  /**
   * Frames for somebody who has this state vector: the state that they lack, last, and before it perhaps what belongs on top of
   * it; whoever has the state then has everything, as the protocol says. The whole is encoded once in many versions and not
   * once a person: who comes in while others write gets an older whole and what came since.
   */
  difference(stateVector: Uint8Array): readonly Uint8Array[] {
    if (stateVector.length > 1) return [stateFrame(Y.encodeStateAsUpdate(this.authority, stateVector))]
    if (this.whole !== undefined && this.since.length > 0) {
      // Once for all who come in before somebody writes again.
      if (this.since.length > 1) this.since = [Y.mergeUpdates(this.since)]
      const [since] = this.since
      if (since !== undefined && since.length <= limits.sinceWholeBytes) return [updateFrame(since), this.whole.frame]
    }
    return [this.wholeNow().frame]
  }

  /** Checks an edit and, if it may stand, stores and then shows it. */
  receive(session: Session, frame: number, update: Uint8Array, nowMs: number): void {
    const by = { participant: session.person.id, role: session.person.role }
    this.storing.take({ kind: 'sent', update, by, nowMs, session, frame })
  }

  /**
   * An edit of the server's own, which is nobody's hand, in the name of whoever asked for it: stored, then shown. It is made
   * anew when another process was first, so it looks at the document each time. Resolves when it is stored.
   * @throws RangeError when a record that it makes does not parse; StoreOutage when it was not stored
   */
  write(edit: (doc: Y.Doc) => void, by: Sender, nowMs: number): Promise<void> {
    if (this.closed) return Promise.reject(new StoreOutage('The edit was not stored.'))
    return new Promise((stored, failed) => this.storing.take({ kind: 'own', edit, by, nowMs, stored, failed }))
  }

  /** Another process says that the log reaches so far. */
  heard(seq: number): void {
    this.storing.heard(seq)
  }

  /** Takes over what other processes wrote, as far as the log has it. */
  catchUp(): Promise<void> {
    return this.storing.catchUp()
  }

  /** Resolves when everything that was received so far is stored and shown, or the store has failed. */
  settled(): Promise<void> {
    return this.storing.settled()
  }

  /**
   * An edit that the server makes for somebody who asks without their name, as the author that stands for them: judged like
   * one that came over a socket, and paced by the person. Resolves when it is stored.
   * @returns the reason against it, or undefined when it stands
   * @throws StoreOutage when it was not stored
   */
  writeUnnamed(
    edit: (doc: Y.Doc) => void,
    by: Sender,
    person: ParticipantId,
    nowMs: number,
  ): Promise<Refusal | undefined> {
    if (this.closed) return Promise.reject(new StoreOutage('The edit was not stored.'))
    this.unnamed.set(by.participant, person)
    const update = this.proposal.updateBy(edit)
    return new Promise((settled, failed) => {
      const stored = () => settled(undefined)
      this.storing.take({ kind: 'unnamed', update, by, person, nowMs, stored, refused: settled, failed })
    })
  }

  /** Tells whoever counts, and the log, that something of this person's was not taken. */
  tellRefusal(code: string, by: ParticipantId): void {
    this.events.refused(code, by)
  }

  private tooOften(edit: JudgedEdit, changes: readonly Change[]): Refusal | undefined {
    const person = edit.kind === 'unnamed' ? edit.person : edit.by.participant
    return edit.by.role === 'panel' ? this.pace.refusalOf(person, changes, edit.nowMs) : undefined
  }

  /** Whoever asked without their name at another process is judged here as the person that they are. */
  private async beforeFollowing(): Promise<void> {
    if (this.kind === 'floor') this.learn(await this.store.listUnnamed(this.caseId))
  }

  private learn(unnamed: readonly UnnamedAuthor[]): void {
    for (const { author, participant } of unnamed) this.unnamed.set(author, participant)
  }

  async saveSnapshot(): Promise<void> {
    if (this.seq === this.snapshotSeq) return
    const snapshot = { seq: this.seq, state: this.state() }
    this.snapshotSeq = snapshot.seq
    await this.store.saveSnapshot(this.name, snapshot)
  }

  get isIdle(): boolean {
    return this.sessions.size === 0 && this.storing.isIdle
  }

  get isClosed(): boolean {
    return this.closed
  }

  close(): void {
    this.closed = true
    clearInterval(this.ticker)
    this.storing.close()
    this.presence.close()
    this.authority.destroy()
  }

  private mayWrite({ person }: Session): boolean {
    return (writersOfDocument[this.kind] as readonly string[]).includes(person.role)
  }

  private stored(batch: readonly Pending[], seq: number): void {
    const written = batch.filter(({ empty }) => !empty)
    const [only] = written
    const alone = written.length === 1 && only?.edit.kind === 'sent' ? only.edit.session : undefined
    this.show(
      written.map(({ update }) => update),
      alone,
    )
    this.reached(seq)
    for (const { session, frame } of lastOfEach(batch)) session.stored(frame)
    if (written.length === 0) return
    this.events.appended(this, seq)
    if (written.some(({ changes }) => changes.length > 0)) this.events.changed(this)
  }

  private followed(updates: readonly LoggedUpdate[]): void {
    for (const { update, author } of updates) this.claimClients(update, author)
    this.show(
      updates.map(({ update }) => update),
      undefined,
    )
    this.reached(updates.at(-1)?.seq ?? this.seq)
    this.events.changed(this)
  }

  /** A client id that has written nothing yet belongs to whoever wrote with it first (S4): the log is in that order. */
  private claimClients(update: Uint8Array, author: ParticipantId): void {
    for (const { id } of Y.decodeUpdate(update).structs)
      if (!this.owners.has(id.client)) this.owners.set(id.client, author)
  }

  /** Not before it is shown: a snapshot under a number holds everything up to it, and so does what is opened from it. */
  private reached(seq: number): void {
    this.seq = seq
    if (this.seq - this.snapshotSeq >= limits.snapshotEvery)
      this.saveSnapshot().catch((error: unknown) => this.fail(error))
  }

  private show(updates: readonly Uint8Array[], except: Session | undefined): void {
    const [first] = updates
    if (first === undefined) return
    const before = lazily(() => Y.encodeStateVector(this.authority))
    const update = updates.length === 1 ? first : Y.mergeUpdates([...updates])
    const frame = updateFrame(update)
    for (const session of this.sessions) if (session !== except) session.deliver(frame, before)
    this.authority.transact(() => {
      for (const each of updates) Y.applyUpdate(this.authority, each)
    })
    if (this.since.length > limits.sinceWhole) this.forgetWhole()
    else if (this.whole !== undefined) this.since.push(update)
  }

  private forgetWhole(): void {
    this.whole = undefined
    this.since = []
  }

  /** The disk failed, and what was on its way may be stored or not: everybody reconnects to a room read anew. */
  private fail(error: unknown): void {
    if (this.closed) return
    this.events.outage(this, error)
    for (const session of [...this.sessions]) session.close(closeCode.notStored, 'not stored; the page will try again')
    this.close()
  }

  private state(): Uint8Array {
    return this.wholeNow().state
  }

  private wholeNow(): Whole {
    if (this.whole === undefined || this.since.length > 0) {
      this.whole = wholeOf(Y.encodeStateAsUpdate(this.authority))
      this.since = []
    }
    return this.whole
  }

  private catchUpReaders(): void {
    const nowMs = performance.now()
    for (const session of this.sessions) session.catchUp(nowMs)
  }
}

/** The last frame of each session: confirming it confirms those before. */
function lastOfEach(batch: readonly Pending[]): Iterable<{ readonly session: Session; readonly frame: number }> {
  return new Map(batch.flatMap(({ edit }) => (edit.kind === 'sent' ? [[edit.session, edit] as const] : []))).values()
}

function lazily<T>(make: () => T): () => T {
  let made: { readonly value: T } | undefined
  return () => {
    made ??= { value: make() }
    return made.value
  }
}
