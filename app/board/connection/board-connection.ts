import type { Awareness } from 'y-protocols/awareness'
import type * as Y from 'yjs'
import { documentName } from '@/lib/board/documents.ts'
import type { CaseId, ParticipantId } from '@/lib/board/identity.ts'
import type { DocumentKind } from '@/lib/board/records.ts'
import type { Refusal } from '@/lib/board/refusals.ts'
import { type Role, rolesWithPresence, writersOfDocument } from '@/lib/board/roles.ts'
import type { Presence, Roster } from '@/lib/board/wire.ts'
import type { Place } from './changed-places.ts'
import { DocumentLink, type LinkState } from './document-link.ts'
import { boundedDrafts, type Draft, draftsOf, isBlamed, readDrafts, writeAsItWas } from './drafts.ts'
import type { KeptText } from './kept-text.ts'
import { presenceColour } from './presence-colour.ts'

export interface Holder {
  readonly participant: ParticipantId
  readonly name: string
  readonly affiliation: string
  readonly role: Role
}

export interface BoardConnectionOptions {
  readonly caseId: CaseId
  readonly me: Holder
  readonly serverUrl: string
  readonly kept: KeptText
  /** whether this browser can keep copies of the documents */
  readonly keepsCopies: boolean
  readonly now: () => Date
  readonly newId: () => string
  /** The sentence for a refusal, in the reader's language. */
  readonly explain: (refused: Refusal) => Promise<string>
  /** The sentence for the code with which the server closed for good. */
  readonly explainClosing: (code: number) => string
  /** Opens the page anew: what a role may do decides what it shows and loads. */
  readonly reopen: () => void
}

export interface ConnectionSnapshot {
  readonly record: Y.Doc
  readonly floor: Y.Doc
  readonly awareness: Awareness
  readonly link: LinkState
  readonly closed: { readonly code: number; readonly reason: string } | undefined
  readonly isStored: boolean
  /** whether this browser keeps copies of the documents for work offline */
  readonly keepsCopies: boolean
  readonly roster: Roster
  readonly drafts: readonly Draft[]
  readonly refused: string | undefined
}

/** The worst state of the two links is the state of the board. */
const worstFirst: readonly LinkState[] = ['closed', 'offline', 'store-away', 'connecting', 'live']

/** Both documents of a case, for one person and page, until `destroy`. */
export class BoardConnection {
  readonly options: BoardConnectionOptions
  /** Resolves when what this browser keeps has been read, or takes too long, and the server is being called. */
  readonly begun: Promise<unknown>
  private readonly links: Readonly<Record<DocumentKind, DocumentLink>>
  private readonly listeners = new Set<() => void>()
  private roster: Roster = { people: [], observers: 0 }
  private drafts: readonly Draft[]
  /** What was refused only because it came in one update with what was at fault: sent again, each by itself. */
  private readonly blameless: Record<DocumentKind, readonly Draft[]> = { record: [], floor: [] }
  private refused: string | undefined
  private closed: ConnectionSnapshot['closed']
  private keepsCopies: boolean
  private snapshot: ConnectionSnapshot

  constructor(options: BoardConnectionOptions) {
    this.options = options
    this.keepsCopies = options.keepsCopies
    this.drafts = readDrafts(options.kept.read(this.draftsKey))
    this.links = { record: this.makeLink('record'), floor: this.makeLink('floor') }
    this.snapshot = this.takeSnapshot()
    this.begun = Promise.all(Object.values(this.links).map(({ begun }) => begun))
  }

  readonly subscribe = (notify: () => void): (() => void) => {
    this.listeners.add(notify)
    return () => this.listeners.delete(notify)
  }

  readonly getSnapshot = (): ConnectionSnapshot => this.snapshot

  destroy(): void {
    this.listeners.clear()
    for (const link of Object.values(this.links)) link.destroy()
  }

  reconnect(): void {
    for (const link of Object.values(this.links)) link.reconnect()
  }

  /** The browser's storage is full: what is written from now on is not kept on the device. */
  storageFailed(): void {
    this.keepsCopies = false
    this.changed()
  }

  discardDraft(id: string): void {
    this.keepDrafts(this.drafts.filter((draft) => draft.id !== id))
  }

  dismissRefused(): void {
    this.refused = undefined
    this.changed()
  }

  private get draftsKey(): string {
    return `promontory.drafts.${this.options.caseId}.${this.options.me.participant}`
  }

  private makeLink(kind: DocumentKind): DocumentLink {
    const { caseId, me, serverUrl, kept, keepsCopies } = this.options
    const name = documentName(kind, caseId)
    const journalKey = `promontory.unstored.${name}.${me.participant}`
    return new DocumentLink(
      {
        serverUrl,
        documentName: name,
        mayWrite: (writersOfDocument[kind] as readonly Role[]).includes(me.role),
        presence: kind === 'record' ? presenceOf(me) : null,
        copyName: keepsCopies ? `promontory.${name}.${me.participant}` : undefined,
        journal: kept.read(journalKey),
        keepJournal: (journal) => void kept.write(journalKey, journal),
      },
      {
        changed: () => this.changed(),
        refused: (doc, lost, refused) => {
          const drafts = this.keepLost(doc, lost, '')
          void this.keepRefused(drafts, refused)
          if (drafts.some((draft) => isBlamed(draft, refused)))
            this.blameless[kind] = drafts.filter((draft) => !isBlamed(draft, refused))
        },
        renewed: (diverged, late, refused) => {
          const drafts = this.keepLost(diverged, late, '')
          if (drafts.length > 0) void this.keepRefused(drafts, refused)
          this.sendAgain(kind, [...this.blameless[kind], ...drafts])
        },
        closed: (code, reason, doc, lost) => {
          this.closed = { code, reason }
          this.keepLost(doc, lost, this.options.explainClosing(code))
        },
        roleChanged: () => this.options.reopen(),
        copyFailed: () => this.storageFailed(),
        roster: (roster) => {
          if (kind !== 'record') return
          this.roster = roster
          this.changed()
        },
      },
    )
  }

  private keepLost(doc: Y.Doc, lost: readonly Place[], reason: string): readonly Draft[] {
    const { now, newId } = this.options
    const drafts = draftsOf(doc, lost, { reason, at: now().toISOString(), newId })
    this.keepDrafts([...this.drafts, ...drafts])
    return drafts
  }

  /** Each as an edit of its own: another one that is refused then takes none of those before it along. */
  private sendAgain(kind: DocumentKind, drafts: readonly Draft[]): void {
    this.blameless[kind] = []
    const waiting = new Set(this.drafts.map(({ id }) => id))
    for (const draft of drafts)
      if (waiting.has(draft.id) && writeAsItWas(this.links[kind].doc, draft)) this.discardDraft(draft.id)
  }

  /** The drafts are kept at once, their reason follows: it may have to be fetched. */
  private async keepRefused(drafts: readonly Draft[], refused: Refusal): Promise<void> {
    const reason = await this.options.explain(refused)
    this.refused = reason
    const isOf = new Set(drafts.map(({ id }) => id))
    this.keepDrafts(this.drafts.map((draft) => (isOf.has(draft.id) ? { ...draft, reason } : draft)))
  }

  private keepDrafts(drafts: readonly Draft[]): void {
    this.drafts = boundedDrafts(drafts)
    this.options.kept.write(this.draftsKey, JSON.stringify(this.drafts))
    this.changed()
  }

  private changed(): void {
    this.snapshot = this.takeSnapshot()
    for (const notify of this.listeners) notify()
  }

  private takeSnapshot(): ConnectionSnapshot {
    const { record, floor } = this.links
    const states = [record.linkState, floor.linkState]
    return {
      record: record.doc,
      floor: floor.doc,
      awareness: record.awareness,
      link: worstFirst.find((state) => states.includes(state)) ?? 'connecting',
      closed: this.closed,
      isStored: record.isStored && floor.isStored,
      keepsCopies: this.keepsCopies,
      roster: this.roster,
      drafts: this.drafts,
      refused: this.refused,
    }
  }
}

function presenceOf({ participant, name, role }: Holder): Presence | null {
  if (!rolesWithPresence.includes(role)) return null
  return { user: { id: participant, name, role, color: presenceColour(participant) } }
}
