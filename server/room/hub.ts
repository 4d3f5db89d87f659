import type { WebSocket } from 'ws'
import { parseDocumentName } from '../../lib/board/documents.ts'
import type { ParticipantId } from '../../lib/board/identity.ts'
import { closeCode } from '../../lib/board/wire.ts'
import { type Meter, unmeasured } from '../metrics/meter.ts'
import { alone, type Neighbours, type Notice } from '../nodes/neighbours.ts'
import { type Store, StoreOutage } from '../store/store.ts'
import { limits } from './limits.ts'
import { Projecting } from './projecting.ts'
import { Room, type RoomEvents } from './room.ts'
import { Rosters } from './rosters.ts'
import { type Entry, Session } from './session.ts'
import { tellingSlowness } from './slow-store.ts'
import { StoreWatch } from './store-watch.ts'

export type Log = (event: string, facts?: Readonly<Record<string, string | number>>) => void

export interface HubParts {
  /** The other processes of the board; none by default. */
  readonly neighbours?: Neighbours
  readonly meter?: Meter
}

/** All rooms of this process: opened when somebody comes, closed some time after the last one has left. */
export class Hub {
  private readonly store: Store
  private readonly log: Log
  private readonly rooms = new Map<string, Promise<Room>>()
  private readonly idle = new Map<string, NodeJS.Timeout>()
  private readonly projecting: Projecting
  private readonly neighbours: Neighbours
  private readonly meter: Meter
  private readonly watch: StoreWatch
  private readonly rosters: Rosters
  private readonly rosterTimer: NodeJS.Timeout
  private readonly accessTimer: NodeJS.Timeout
  private readonly recheckTimer: NodeJS.Timeout | undefined
  private closing = false
  private expelled = 0

  constructor(store: Store, log: Log, { neighbours = alone, meter = unmeasured }: HubParts = {}) {
    this.store = store
    this.log = log
    this.neighbours = neighbours
    this.meter = tellingSlowness(meter, log)
    this.rosters = new Rosters(neighbours)
    this.projecting = new Projecting({
      store,
      opened: () => this.opened(),
      failed: (caseId, error) => log('projection-failed', { case: caseId, problem: String(error) }),
    })
    this.watch = new StoreWatch({ store, back: (awayMs) => log('store-back', { awayMs }) })
    neighbours.listen({
      heard: (from, notice) => void this.hear(from, notice).catch((error: unknown) => this.failed('notice', error)),
      missed: () => this.startAnew(),
      left: (node) => void this.forget(node).catch((error: unknown) => this.failed('notice', error)),
    })
    if (neighbours.possible) this.recheckTimer = setInterval(() => this.recheck(), limits.recheckMs)
    this.rosterTimer = setInterval(() => {
      this.sendRosters().catch((error: unknown) => this.failed('roster', error))
    }, limits.rosterTickMs)
    this.accessTimer = setInterval(() => {
      this.checkAccess().catch((error: unknown) => this.failed('access-check', error))
    }, limits.accessCheckMs)
  }

  /**
   * The room of a document, opened if need be. Entering follows in the same turn, so that no message falls between.
   * @throws RangeError when `name` is not a document name; StoreOutage when it cannot be read, or nothing can be stored
   */
  async open(name: string): Promise<Room> {
    if (this.closing) throw new StoreOutage(restarting)
    if (this.watch.isAway) throw new StoreOutage('Nothing can be stored at present.')
    let room = await this.opening(name)
    while (room.isClosed) room = await this.opening(name)
    return room
  }

  /**
   * The room of a document for a look or an edit of the server's own, up to date with what other processes wrote; it closes
   * by itself where nobody comes.
   */
  async visit(name: string): Promise<Room> {
    const room = await this.open(name)
    if (room.sessions.size === 0) this.leaveIdle(room)
    if (this.neighbours.possible) await room.catchUp()
    return room
  }

  get isClosing(): boolean {
    return this.closing
  }

  /** False from when something could not be stored until a trial shows that it can be again. */
  get canStore(): boolean {
    return !this.watch.isAway
  }

  /** How many documents are open here. */
  get size(): number {
    return this.rooms.size
  }

  enter(room: Room, socket: WebSocket, entry: Entry): void {
    clearTimeout(this.idle.get(room.name))
    room.enter(new Session(room, socket, entry))
  }

  /** Closes sockets whose person's access has run out or whose role is another by now; they may come back with it. */
  async checkAccess(): Promise<void> {
    for await (const room of this.opened()) {
      for (const session of [...room.sessions]) {
        const role = session.roleNow === undefined ? session.person.role : await session.roleNow()
        if (role === undefined) session.close(closeCode.revoked, 'your access to this case has ended')
        else if (role !== session.person.role) session.close(closeCode.roleChanged, 'you have another role now')
      }
    }
  }

  /** How often somebody was expelled here: whoever was on the way in meanwhile has to be judged again. */
  get expulsions(): number {
    return this.expelled
  }

  /** Closes every socket of somebody whose access ended. */
  async expel(participant: ParticipantId): Promise<void> {
    this.expelled += 1
    for await (const room of this.opened()) {
      for (const session of room.sessions)
        if (session.person.id === participant) session.close(closeCode.revoked, 'your access to this case has ended')
    }
  }

  /** Documents of an erased case: nobody stays inside, and nothing is written any more. */
  async discardCase(caseId: string): Promise<void> {
    await this.closeCase(caseId)
    this.neighbours.tell({ kind: 'case-erased', caseId })
  }

  private async closeCase(caseId: string): Promise<void> {
    for await (const room of this.opened()) {
      if (room.caseId !== caseId) continue
      this.rooms.delete(room.name)
      for (const session of room.sessions) session.close(closeCode.revoked, 'this case has been erased')
      room.close()
    }
  }

  /** Stores what has come in, tells everybody to come back to another process or a later one, and writes snapshots. */
  async close(): Promise<void> {
    this.closing = true
    clearInterval(this.rosterTimer)
    clearInterval(this.accessTimer)
    clearInterval(this.recheckTimer)
    this.watch.close()
    for (const timer of this.idle.values()) clearTimeout(timer)
    const opened = await Promise.allSettled(this.rooms.values())
    const rooms = opened.flatMap((room) => (room.status === 'fulfilled' ? [room.value] : []))
    await atMost(limits.drainMs, Promise.all(rooms.map((room) => room.settled())))
    for (const room of rooms) for (const session of room.sessions) session.close(closeCode.restarting, restarting)
    // What came in while the first part was being stored.
    await atMost(limits.drainMs, Promise.all(rooms.map((room) => room.settled())))
    await Promise.allSettled([
      ...rooms.map((room) => room.saveSnapshot()),
      this.projecting.settled(),
      ...rooms.map((room) => this.neighbours.attend(room.name, null)),
    ])
    for (const room of rooms) room.close()
  }

  private failed(what: string, error: unknown): void {
    this.log(`${what}-failed`, { problem: error instanceof Error ? error.message : String(error) })
  }

  private async hear(from: string, notice: Notice): Promise<void> {
    if (notice.kind === 'case-erased') return this.closeCase(notice.caseId)
    if (!('document' in notice)) return
    const room = await this.rooms.get(notice.document)
    if (room === undefined) return
    switch (notice.kind) {
      case 'appended':
        return room.heard(notice.seq)
      case 'presence':
        return room.presence.receiveFrom(from, Buffer.from(notice.states, 'base64'))
      case 'presence-wanted':
        return room.presence.passAll()
      case 'attendance-changed':
        return this.rosters.forgetOthers(room)
      default:
        return notice satisfies never
    }
  }

  /** Another process has ended: whom it had inside is here no more, until they come back to one of the others. */
  private async forget(node: string): Promise<void> {
    for await (const room of this.opened()) {
      room.presence.leaveNode(node)
      this.rosters.forgetOthers(room)
    }
  }

  /** The link to the others was lost: they may have said anything, and know nothing of this process any more. */
  private startAnew(): void {
    for (const opening of this.rooms.values())
      opening.then(
        (room) => this.rosters.forget(room),
        () => undefined,
      )
    this.recheck()
    this.checkAccess().catch((error: unknown) => this.failed('access-check', error))
  }

  /** Looks for what this process may not have been told. */
  private recheck(): void {
    for (const opening of this.rooms.values())
      opening.then(
        (room) => {
          this.rosters.forgetOthers(room)
          return room.catchUp()
        },
        () => undefined,
      )
  }

  /** Every room, as soon as it is open. One that cannot be read keeps nobody from what concerns the others. */
  private async *opened(): AsyncGenerator<Room> {
    for (const opening of [...this.rooms.values()]) {
      const room = await opening.catch(() => undefined)
      if (room !== undefined) yield room
    }
  }

  private opening(name: string): Promise<Room> {
    const open = this.rooms.get(name)
    if (open !== undefined) return open
    const opening = this.load(name)
    this.rooms.set(name, opening)
    opening.catch(() => this.rooms.delete(name))
    return opening
  }

  private async load(name: string): Promise<Room> {
    const place = parseDocumentName(name)
    if (place === undefined) throw new RangeError(`document name is record.<case> or floor.<case>; got ${name}`)
    const [found, unnamed] = await Promise.all([
      this.store.load(name),
      place.kind === 'floor' ? this.store.listUnnamed(place.caseId) : [],
    ])
    const events: RoomEvents = {
      changed: (changed) => this.projecting.changed(changed),
      appended: (_, seq) => this.neighbours.tell({ kind: 'appended', document: name, seq }),
      othersWrite: this.neighbours.possible,
      pointed: this.neighbours.possible ? (states) => this.tellPresence(name, states) : undefined,
      emptied: (empty) => this.leaveIdle(empty),
      outage: (failed, error) => this.discard(failed, error),
      refused: (code, by) => {
        this.meter.refused(code)
        this.log('edit-refused', { document: name, code, ...(by === undefined ? {} : { participant: by }) })
      },
      meter: this.meter,
    }
    const room = readable(name, () => new Room({ name, ...place }, found, this.store, events, unnamed))
    this.neighbours.tell({ kind: 'presence-wanted', document: name })
    return room
  }

  private tellPresence(document: string, states: Uint8Array): void {
    this.neighbours.tell({ kind: 'presence', document, states: Buffer.from(states).toString('base64') })
  }

  private leaveIdle(room: Room): void {
    clearTimeout(this.idle.get(room.name))
    const timer = setTimeout(() => void this.closeIdle(room), limits.idleRoomMs)
    timer.unref()
    this.idle.set(room.name, timer)
  }

  private async closeIdle(room: Room): Promise<void> {
    if (!room.isIdle) return
    try {
      await room.saveSnapshot()
    } catch (error) {
      return this.discard(room, error)
    }
    if (!room.isIdle) return
    this.rooms.delete(room.name)
    this.idle.delete(room.name)
    room.close()
    await this.neighbours.attend(room.name, null).catch((error: unknown) => this.failed('roster', error))
  }

  private discard(room: Room, error: unknown): void {
    this.meter.outage()
    this.log('store-outage', { document: room.name, problem: error instanceof Error ? error.message : String(error) })
    this.watch.failed()
    this.rooms.delete(room.name)
    room.close()
  }

  private async sendRosters(): Promise<void> {
    for await (const room of this.opened()) {
      if (room.kind === 'record' && !room.isClosed) await this.rosters.send(room)
    }
  }
}

/** What is stored and cannot be read is told to whoever runs the server; nobody is shown half of it. */
function readable<T>(document: string, read: () => T): T {
  try {
    return read()
  } catch (cause) {
    throw new StoreOutage(`${document} is stored, but cannot be read: run "npm run check-store".`, { cause })
  }
}

const restarting = 'the server is restarting'

/** Waits for work, but not for ever: whoever ends has to end. */
async function atMost(ms: number, work: Promise<unknown>): Promise<void> {
  let timer: NodeJS.Timeout | undefined
  const patience = new Promise((resolve) => {
    timer = setTimeout(resolve, ms)
  })
  await Promise.race([work, patience])
  clearTimeout(timer)
}
