import * as Y from 'yjs'
import type { ParticipantId } from '../../lib/board/identity.ts'
import type { DocumentKind } from '../../lib/board/records.ts'
import { writersOfDocument } from '../../lib/board/roles.ts'
import type { Change, TableView } from '../../lib/board/rules.ts'
import { closeCode } from '../../lib/board/wire.ts'
import { Proposal } from '../guard/proposal.ts'
import type { Store, StoredDocument } from '../store/store.ts'
import { updateFrame } from './frames.ts'
import { limits } from './limits.ts'
import { RoomPresence } from './presence.ts'
import type { Session } from './session.ts'

/** An edit that passed the guard and is on its way to the disk. */
interface Pending {
  readonly update: Uint8Array
  readonly session: Session
  readonly frame: number
  readonly changes: readonly Change[]
  stored: boolean
}

export interface RoomEvents {
  /** After records of this document changed and were stored. */
  changed(room: Room, changes: readonly Change[]): void
  emptied(room: Room): void
  outage(room: Room, error: unknown): void
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
  private readonly owners: Map<number, ParticipantId>
  private readonly pending: Pending[] = []
  private readonly ticker: NodeJS.Timeout
  private wholeState: Uint8Array | undefined
  private seq: number
  private snapshotSeq: number
  private closed = false

  constructor(
    place: { name: string; kind: DocumentKind; caseId: string },
    found: StoredDocument,
    store: Store,
    events: RoomEvents,
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
    this.proposal = new Proposal(this.kind, [this.state()])
    this.presence = new RoomPresence((frame) => {
      for (const session of this.sessions) session.deliverPresence(frame)
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

  /** What somebody lacks who has this state vector. The whole state is encoded once a version, not once a person. */
  difference(stateVector: Uint8Array): Uint8Array {
    return stateVector.length <= 1 ? this.state() : Y.encodeStateAsUpdate(this.authority, stateVector)
  }

  /** Checks an edit and, if it may stand, stores and then shows it. */
  receive(session: Session, frame: number, update: Uint8Array, nowMs: number): void {
    const sender = { participant: session.person.id, role: session.person.role }
    const verdict = this.proposal.check(update, sender, this.owners, nowMs)
    if (!verdict.ok) {
      if (verdict.spoilt) this.renewProposal()
      return session.refuse(frame, verdict.refused)
    }
    if (verdict.empty && this.pending.length === 0) return session.stored(frame)
    const pending: Pending = { update, session, frame, changes: verdict.changes, stored: verdict.empty }
    this.pending.push(pending)
    if (!verdict.empty) this.append(pending, verdict.newClients, nowMs)
  }

  async saveSnapshot(): Promise<void> {
    if (this.seq === this.snapshotSeq) return
    const snapshot = { seq: this.seq, state: this.state() }
    this.snapshotSeq = snapshot.seq
    await this.store.saveSnapshot(this.name, snapshot)
  }

  get isIdle(): boolean {
    return this.sessions.size === 0 && this.pending.length === 0
  }

  get isClosed(): boolean {
    return this.closed
  }

  close(): void {
    this.closed = true
    clearInterval(this.ticker)
    this.presence.close()
    this.authority.destroy()
  }

  private mayWrite({ person }: Session): boolean {
    return (writersOfDocument[this.kind] as readonly string[]).includes(person.role)
  }

  private append(pending: Pending, newClients: readonly number[], nowMs: number): void {
    const { person } = pending.session
    for (const client of newClients) this.owners.set(client, person.id)
    const at = new Date(nowMs).toISOString()
    this.store
      .append([
        { document: this.name, update: pending.update, author: person.id, role: person.role, at, clients: newClients },
      ])
      .then(
        ([seq]) => {
          this.seq = Math.max(this.seq, seq ?? this.seq)
          pending.stored = true
          this.scheduleShowing()
        },
        (error: unknown) => this.fail(error),
      )
  }

  private showing = false

  /** What one commit of the store confirms is shown in one go. */
  private scheduleShowing(): void {
    if (this.showing) return
    this.showing = true
    setImmediate(() => {
      this.showing = false
      this.showStored()
    })
  }

  private showStored(): void {
    const count = this.pending.findIndex(({ stored }) => !stored)
    const ready = this.pending.splice(0, count === -1 ? this.pending.length : count)
    if (ready.length === 0 || this.closed) return
    this.show(ready)
    for (const { session, frame } of lastOfEach(ready)) session.stored(frame)
    const changes = ready.flatMap((pending) => pending.changes)
    if (changes.length > 0) this.events.changed(this, changes)
    if (this.seq - this.snapshotSeq >= limits.snapshotEvery)
      this.saveSnapshot().catch((error: unknown) => this.events.outage(this, error))
  }

  private show(ready: readonly Pending[]): void {
    const withContent = ready.filter(({ update }) => update.length > 2)
    if (withContent.length === 0) return
    const before = lazily(() => Y.encodeStateVector(this.authority))
    const frame = updateFrame(
      withContent.length === 1
        ? (withContent[0] as Pending).update
        : Y.mergeUpdates(withContent.map(({ update }) => update)),
    )
    const only = withContent.length === 1 ? withContent[0]?.session : undefined
    for (const session of this.sessions) if (session !== only) session.deliver(frame, before)
    this.authority.transact(() => {
      for (const { update } of withContent) Y.applyUpdate(this.authority, update)
    })
    this.wholeState = undefined
  }

  /** The disk failed, and what was on its way may be stored or not: everybody reconnects to a room read anew. */
  private fail(error: unknown): void {
    if (this.closed) return
    this.events.outage(this, error)
    for (const session of [...this.sessions]) session.close(closeCode.notStored, 'not stored; the page will try again')
    this.close()
  }

  private renewProposal(): void {
    this.proposal.renew([this.state(), ...this.pending.map(({ update }) => update)])
  }

  private state(): Uint8Array {
    this.wholeState ??= Y.encodeStateAsUpdate(this.authority)
    return this.wholeState
  }

  private catchUpReaders(): void {
    const nowMs = Date.now()
    for (const session of this.sessions) session.catchUp(nowMs)
  }
}

/** The last frame of each session: confirming it confirms those before. */
function lastOfEach(ready: readonly Pending[]): Iterable<Pending> {
  return new Map(ready.map((pending) => [pending.session, pending])).values()
}

function lazily<T>(make: () => T): () => T {
  let made: { readonly value: T } | undefined
  return () => {
    made ??= { value: make() }
    return made.value
  }
}
