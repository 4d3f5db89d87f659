import * as Y from 'yjs'
import type { ParticipantId } from '../../lib/board/identity.ts'
import { judge, parseRecord, type Sender } from '../../lib/board/judge.ts'
import { LayoutFault, readRaw, type TouchedRecord, tableOf, touchedRecords } from '../../lib/board/layout.ts'
import { readRecord } from '../../lib/board/reading.ts'
import { type DocumentKind, type KindName, kindOf, kindsIn } from '../../lib/board/records.ts'
import { type Refusal, refusal } from '../../lib/board/refusals.ts'
import { writersOfDocument } from '../../lib/board/roles.ts'
import type { Change } from '../../lib/board/rules.ts'
import { RecordTables, type Unnamed } from './record-tables.ts'
import { sealer } from './sealer.ts'

export type Verdict =
  | {
      readonly ok: true
      readonly changes: readonly Change[]
      readonly newClients: readonly number[]
      readonly empty: boolean
    }
  | { readonly ok: false; readonly refused: Refusal; readonly spoilt: boolean }

type Outcome = { readonly refused: Refusal } | { readonly changes: readonly Change[]; readonly changedNothing: boolean }

/** Sealed records in one update. A scenario is computed anew in some 45 ms, during which everybody waits. */
export const mostSealedAtOnce = 4

/** Which participant a CRDT client id belongs to: the one who used it first. */
export type ClientOwners = ReadonlyMap<number, ParticipantId>

/**
 * The copy of a document on which updates are tried before anything else sees them (rules G1 to G7, DEVELOPERS.md).
 * It runs ahead of the stored document by the updates that passed and are being stored. An update is taken whole or
 * not at all and is judged by its result; after a refusal the copy is spoilt and `renew` must follow.
 */
export class Proposal {
  readonly tables: RecordTables
  private readonly kind: DocumentKind
  private doc = new Y.Doc()

  constructor(kind: DocumentKind, updates: readonly Uint8Array[], unnamed?: Unnamed) {
    this.kind = kind
    this.tables = new RecordTables(unnamed)
    this.renew(updates)
  }

  /** Rebuilds the copy from updates that passed before. */
  renew(updates: readonly Uint8Array[]): void {
    this.doc.destroy()
    this.doc = new Y.Doc()
    for (const kind of kindsIn(this.kind)) tableOf(this.doc, kind)
    this.doc.transact(() => {
      for (const update of updates) Y.applyUpdate(this.doc, update)
    })
    this.tables.fill(this.doc, kindsIn(this.kind))
  }

  /** @param nowMs the server's clock, milliseconds since 1970 */
  check(update: Uint8Array, sender: Sender, owners: ClientOwners, nowMs: number): Verdict {
    const claimed = this.claimedClients(update)
    if (claimed === undefined) return untouched(refusal('malformed', this.kind, {}))
    const mayWrite = writersOfDocument[this.kind].some((role) => role === sender.role)
    // Before anything is tried: renewing the copy for everybody who may only watch would be theirs to ask for.
    if (!mayWrite && claimed.clients.length > 0) return untouched(this.notAWriter(sender))
    const newClients = claimed.clients.filter((client) => owners.get(client) === undefined)
    if (claimed.clients.some((client) => !newClients.includes(client) && owners.get(client) !== sender.participant))
      return untouched(refusal('foreign-client', this.kind, {}))
    if (claimed.empty) return { ok: true, changes: [], newClients: [], empty: true }
    const outcome = this.tryUpdate(update, sender, nowMs)
    if ('refused' in outcome) return { ok: false, refused: outcome.refused, spoilt: true }
    if (!mayWrite && !outcome.changedNothing) return { ok: false, refused: this.notAWriter(sender), spoilt: true }
    return { ok: true, changes: outcome.changes, newClients, empty: outcome.changedNothing }
  }

  /**
   * Takes an edit of the server itself. It is parsed like any other, and judged by nobody's rights.
   * @throws RangeError when a record that it makes does not parse; the copy is then as it was
   */
  take(edit: (doc: Y.Doc) => void): { update: Uint8Array; changes: readonly Change[]; client: number } {
    const copy = new Y.Doc()
    Y.applyUpdate(copy, Y.encodeStateAsUpdate(this.doc))
    const before = Y.encodeStateVector(copy)
    let touched: TouchedRecord[] = []
    copy.once('afterTransaction', (transaction: Y.Transaction) => {
      touched = touchedRecords(copy, transaction)
    })
    copy.transact(() => edit(copy))
    const changes = touched.map(({ kind, id }) => this.changeIn(copy, kind, id))
    const update = Y.encodeStateAsUpdate(copy, before)
    this.apply(update)
    this.tables.write(changes)
    copy.destroy()
    return { update, changes, client: copy.clientID }
  }

  /** What an edit would send, made on a copy; nothing is taken yet. */
  updateBy(edit: (doc: Y.Doc) => void): Uint8Array {
    const copy = new Y.Doc()
    Y.applyUpdate(copy, Y.encodeStateAsUpdate(this.doc))
    const before = Y.encodeStateVector(copy)
    copy.transact(() => edit(copy))
    const update = Y.encodeStateAsUpdate(copy, before)
    copy.destroy()
    return update
  }

  /**
   * Takes updates that another process has judged and stored. @returns whether it could; otherwise `renew` must follow
   */
  follow(updates: readonly Uint8Array[]): boolean {
    try {
      for (const update of updates) {
        const { touched } = this.apply(update)
        this.tables.write(
          touched.map(({ kind, id }) => ({
            kind,
            id,
            before: this.tables.get(kind, id),
            after: readRecord(this.doc, kind, id),
          })),
        )
      }
      return this.doc.store.pendingStructs === null && this.doc.store.pendingDs === null
    } catch (error) {
      // A newer version of the program, in the middle of an upgrade, may know places that this one does not.
      if (error instanceof LayoutFault) return false
      throw error
    }
  }

  private changeIn(copy: Y.Doc, kind: KindName, id: string): Change {
    const raw = readRaw(copy, kind, id)
    const parsed = raw === undefined ? undefined : parseRecord(kind, id, raw)
    if (parsed?.ok === false)
      throw new RangeError(`${kind}/${id} would not parse: ${JSON.stringify(parsed.refused.facts)}`)
    return { kind, id, before: this.tables.get(kind, id), after: parsed?.record }
  }

  private notAWriter({ role }: Sender): Refusal {
    return refusal('not-permitted', this.kind, { role, action: 'change', kind: this.kind })
  }

  /** Clients whose content the update adds; content that the document already has counts for nobody. */
  private claimedClients(update: Uint8Array): { clients: number[]; empty: boolean } | undefined {
    try {
      // Reads lazily and throws early, where applying would first allocate what a hostile update declares.
      const { structs, ds } = Y.decodeUpdate(update)
      const fresh = structs.filter(({ id, length }) => id.clock + length > Y.getState(this.doc.store, id.client))
      return {
        clients: [...new Set(fresh.map(({ id }) => id.client))],
        empty: fresh.length === 0 && ds.clients.size === 0,
      }
    } catch {
      return undefined
    }
  }

  private tryUpdate(update: Uint8Array, sender: Sender, nowMs: number): Outcome {
    try {
      const { touched, changedNothing } = this.apply(update)
      if (this.doc.store.pendingStructs !== null || this.doc.store.pendingDs !== null)
        return { refused: refusal('incomplete-update', this.kind, {}) }
      const judged = this.judgeAll(touched, sender, nowMs)
      return Array.isArray(judged) ? { changes: judged, changedNothing } : { refused: judged as Refusal }
    } catch (error) {
      if (error instanceof LayoutFault)
        return { refused: refusal('unknown-place', error.path, { path: error.path, problem: error.message }) }
      // Yjs throws plain errors for content that it cannot integrate: the sender's fault, and the copy is renewed.
      return { refused: refusal('malformed', this.kind, {}) }
    }
  }

  private apply(update: Uint8Array): { touched: TouchedRecord[]; changedNothing: boolean } {
    const touched: TouchedRecord[] = []
    let changedNothing = true
    let fault: unknown
    const collect = (transaction: Y.Transaction) => {
      try {
        if (transaction.subdocsAdded.size > 0) throw new LayoutFault(this.kind, 'a document inside a document')
        touched.push(...touchedRecords(this.doc, transaction))
        // A page that reconnects sends all deletions it knows of; mostly there is nothing new in them.
        if (transaction.deleteSet.clients.size > 0 || grew(transaction)) changedNothing = false
      } catch (error) {
        fault = error
      }
    }
    this.doc.on('afterTransaction', collect)
    Y.applyUpdate(this.doc, update)
    this.doc.off('afterTransaction', collect)
    if (fault !== undefined) throw fault
    for (const root of this.doc.share.keys()) this.refuseForeignRoot(root)
    return { touched: unique(touched), changedNothing }
  }

  private refuseForeignRoot(root: string): void {
    if (!(kindsIn(this.kind) as string[]).includes(root))
      throw new LayoutFault(root, 'there is no such table in this document')
  }

  private judgeAll(touched: readonly TouchedRecord[], sender: Sender, nowMs: number): Refusal | Change[] {
    const changes: Change[] = []
    for (const { kind, id } of touched) {
      const raw = readRaw(this.doc, kind, id)
      const parsed = raw === undefined ? undefined : parseRecord(kind, id, raw)
      if (parsed?.ok === false) return this.rightsFirst(kind, id, sender) ?? parsed.refused
      changes.push({ kind, id, before: this.tables.get(kind, id), after: parsed?.record })
    }
    if (changes.filter(({ kind }) => kindOf(kind).sealed).length > mostSealedAtOnce)
      return refusal('too-many-at-once', this.kind, { most: mostSealedAtOnce })
    this.tables.write(changes)
    for (const change of changes) {
      const refused = judge(change, sender, nowMs, this.tables, sealer)
      if (refused !== undefined) return refused
    }
    return changes
  }

  /** Somebody who may not write a table at all is told so, whatever they sent. */
  private rightsFirst(kind: TouchedRecord['kind'], id: string, sender: Sender): Refusal | undefined {
    if (this.tables.get(kind, id) !== undefined || kindOf(kind).create.includes(sender.role)) return undefined
    return refusal('not-permitted', `${kind}/${id}`, { role: sender.role, action: 'create', kind })
  }
}

const untouched = (refused: Refusal): Verdict => ({ ok: false, refused, spoilt: false })

function grew({ beforeState, afterState }: Y.Transaction): boolean {
  for (const [client, clock] of afterState) if (beforeState.get(client) !== clock) return true
  return false
}

const unique = (touched: readonly TouchedRecord[]): TouchedRecord[] => [
  ...new Map(touched.map((record) => [`${record.kind}/${record.id}`, record])).values(),
]
