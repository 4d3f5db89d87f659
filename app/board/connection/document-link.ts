import type * as decoding from 'lib0/decoding'
import { Awareness } from 'y-protocols/awareness'
import { WebsocketProvider } from 'y-websocket'
import * as Y from 'yjs'
import { type Refusal, refusal } from '@/lib/board/refusals.ts'
import {
  closeCode,
  messageType,
  type Presence,
  type Roster,
  readRefused,
  readRoster,
  readStored,
} from '@/lib/board/wire.ts'
import { changedPlaces, type Place } from './changed-places.ts'
import { countingSocket } from './counting-socket.ts'
import { syncParams } from './early-call.ts'
import { keepLocalCopy, type LocalCopy } from './local-copy.ts'
import { Unstored } from './unstored.ts'

/** `store-away`: the server is there, and says that it can store nothing at present. */
export type LinkState = 'connecting' | 'live' | 'offline' | 'store-away' | 'closed'

export interface LinkEvents {
  /** link state, stored state or the copy in use changed */
  changed(): void
  refused(doc: Y.Doc, lost: readonly Place[], refused: Refusal): void
  /** A copy in step with the server took the place of the one that diverged, in which `late` was written meanwhile. */
  renewed(diverged: Y.Doc, late: readonly Place[], refused: Refusal): void
  /** The server closed for good; `lost` was written here and will not be taken over. */
  closed(code: number, reason: string, doc: Y.Doc, lost: readonly Place[]): void
  roster(roster: Roster): void
  /** what is written from now on may not be kept on the device */
  copyFailed(): void
  /** this person has another role by now than the page was opened with */
  roleChanged(): void
}

export interface LinkPlace {
  /** `ws(s)://host/sync` */
  readonly serverUrl: string
  readonly documentName: string
  /** whether this person's role may write the document at all */
  readonly mayWrite: boolean
  /** what the page publishes of itself from the start; null for those who are counted only */
  readonly presence: Presence | null
  /** name of the copy in this browser; undefined where nothing can be kept */
  readonly copyName: string | undefined
  /** what earlier pages left unconfirmed, as `Unstored.toJournal` wrote it */
  readonly journal: string | null
  keepJournal(journal: string): void
}

/** Our server sends nothing to a quiet page; asking for news keeps the provider from taking that for a lost link. */
const askEveryMs = 20_000
const copyLoadMs = 3_000

/** Reconnecting cannot mend these; every other close is followed by another attempt. */
const finalCodes: readonly number[] = [closeCode.notAllowed, closeCode.revoked]

/** One copy of the document with its socket. A refused edit makes the copy diverge; then a new one takes its place. */
interface Copy {
  readonly doc: Y.Doc
  readonly awareness: Awareness
  readonly provider: WebsocketProvider
  readonly unstored: Unstored
}

/** One document of a case over the network: in use at once, in step with the server when it can be. */
export class DocumentLink {
  /** Resolves when what this browser keeps has been read, or takes too long, and the server is being called. */
  readonly begun: Promise<void>
  private readonly place: LinkPlace
  private readonly events: LinkEvents
  private copy: Copy
  private next: Copy | undefined
  private local: LocalCopy | undefined
  private whyDiverged: Refusal | undefined
  private state: LinkState = 'connecting'
  private isDestroyed = false

  constructor(place: LinkPlace, events: LinkEvents) {
    this.place = place
    this.events = events
    this.copy = this.makeCopy()
    if (place.mayWrite && place.journal !== null) this.copy.unstored.hold(place.journal)
    this.begun = this.start(this.copy)
  }

  get doc(): Y.Doc {
    return this.copy.doc
  }

  get awareness(): Awareness {
    return this.copy.awareness
  }

  get linkState(): LinkState {
    return this.state
  }

  get isStored(): boolean {
    return this.copy.unstored.isEmpty && this.next === undefined
  }

  destroy(): void {
    if (this.isDestroyed) return
    this.isDestroyed = true
    this.local?.close()
    for (const copy of [this.copy, this.next]) if (copy !== undefined) dispose(copy)
  }

  private makeCopy(): Copy {
    const doc = new Y.Doc()
    const awareness = new Awareness(doc)
    const { serverUrl, documentName, mayWrite, presence } = this.place
    awareness.setLocalState(presence)
    const unstored = new Unstored()
    const provider = new WebsocketProvider(serverUrl, documentName, doc, {
      awareness,
      connect: false,
      disableBc: true,
      params: syncParams,
      resyncInterval: askEveryMs,
      shouldReconnect: ({ code }) => !finalCodes.includes(code),
      WebSocketPolyfill: countingSocket(
        { opened: () => unstored.restart(), sending: () => this.sending(unstored) },
        doc.clientID,
        mayWrite,
      ),
    })
    const copy = { doc, awareness, provider, unstored }
    this.listen(copy)
    return copy
  }

  private listen(copy: Copy): void {
    const { doc, provider, unstored } = copy
    doc.on('afterTransaction', (transaction) => {
      if (!transaction.local) return
      unstored.note(changedPlaces(doc, transaction))
      this.unstoredChanged(copy)
    })
    provider.on('sync', () => this.synced(copy))
    provider.on('connection-close', (event) => this.socketClosed(copy, event))
    provider.on('closed', ({ code, reason }) => this.closedForGood(copy, code, reason))
    const handlers = provider.messageHandlers
    handlers[messageType.stored] = (_encoder: unknown, decoder: decoding.Decoder) => {
      unstored.confirm(readStored(decoder).frames)
      this.unstoredChanged(copy)
    }
    handlers[messageType.refused] = (_encoder: unknown, decoder: decoding.Decoder) => {
      const { frame, refusal: refused } = readRefused(decoder)
      this.renew(copy, unstored.lostBy(frame), refused)
    }
    handlers[messageType.roster] = (_encoder: unknown, decoder: decoding.Decoder) =>
      this.events.roster(readRoster(decoder))
  }

  /** Tries the link at once: the device says that the network came or went. */
  reconnect(): void {
    if (this.state === 'closed') return
    const { provider } = this.next ?? this.copy
    provider.disconnect()
    provider.connect()
  }

  private async start(copy: Copy): Promise<void> {
    await this.loadLocalCopy(copy)
    if (!this.isDestroyed) copy.provider.connect()
  }

  private async loadLocalCopy(copy: Copy): Promise<void> {
    const { copyName } = this.place
    if (copyName === undefined) return copy.unstored.release()
    let isLate = false
    const loading = keepLocalCopy(copyName, copy.doc, () => this.events.copyFailed()).then((local) => {
      if (this.isDestroyed || copy !== this.copy) return local.close()
      this.local = local
      copy.unstored.release()
      // What was sent without the copy carried nothing of it: the next link says all of it anew.
      if (isLate) this.reconnect()
    })
    await Promise.race([loading, new Promise((resolve) => setTimeout(resolve, copyLoadMs))])
    isLate = true
  }

  private sending(unstored: Unstored): void {
    unstored.send()
    this.events.changed()
  }

  private unstoredChanged(copy: Copy): void {
    if (copy !== this.copy) return
    this.place.keepJournal(copy.unstored.toJournal())
    this.events.changed()
  }

  private synced(copy: Copy): void {
    if (!copy.provider.synced) return
    if (copy === this.next) this.takeOver(copy)
    this.setState('live')
  }

  private socketClosed(copy: Copy, event: CloseEvent | null): void {
    if (event?.code === closeCode.tooLarge)
      this.renew(
        copy,
        copy.unstored.lostBy(0),
        refusal('too-large', this.place.documentName, { limitBytes: frameBytes }),
      )
    else if (event?.code === closeCode.roleChanged) this.events.roleChanged()
    this.lostLink(copy, event?.code === closeCode.notStored ? 'store-away' : 'offline')
  }

  private lostLink(copy: Copy, state: 'offline' | 'store-away'): void {
    if (copy === (this.next ?? this.copy) && this.state !== 'closed') this.setState(state)
  }

  /** Who has no access any more keeps no copy of the case in this browser. */
  private closedForGood({ doc, unstored }: Copy, code: number, reason: string): void {
    this.state = 'closed'
    this.events.closed(code, reason, doc, unstored.lostBy(0))
    unstored.clear()
    this.place.keepJournal(unstored.toJournal())
    void this.forgetLocalCopy()
  }

  private setState(state: LinkState): void {
    this.state = state
    this.events.changed()
  }

  /** The page goes on showing the diverged copy until a new one is in step with the server. */
  private renew(copy: Copy, lost: readonly Place[], refused: Refusal): void {
    if (copy !== this.copy || this.next !== undefined) return
    copy.unstored.clear()
    copy.provider.destroy()
    this.next = this.makeCopy()
    this.whyDiverged = refused
    this.events.refused(copy.doc, lost, refused)
    void this.forgetLocalCopy().then(() => {
      if (!this.isDestroyed) this.next?.provider.connect()
    })
  }

  private async forgetLocalCopy(): Promise<void> {
    const { local } = this
    this.local = undefined
    await local?.forget()
  }

  private takeOver(next: Copy): void {
    const diverged = this.copy
    this.copy = next
    this.next = undefined
    this.place.keepJournal(next.unstored.toJournal())
    void this.loadLocalCopy(next)
    if (this.whyDiverged !== undefined) this.events.renewed(diverged.doc, diverged.unstored.lostBy(0), this.whyDiverged)
    this.events.changed()
    dispose(diverged)
  }
}

/** What the server takes in one frame. */
const frameBytes = 2 * 1024 * 1024

function dispose({ doc, awareness, provider }: Copy): void {
  provider.destroy()
  awareness.destroy()
  doc.destroy()
}
