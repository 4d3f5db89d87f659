import type { WebSocket } from 'ws'
import { parseDocumentName } from '../../lib/board/documents.ts'
import type { ParticipantId } from '../../lib/board/identity.ts'
import { rolesWithPresence } from '../../lib/board/roles.ts'
import { closeCode, type Roster } from '../../lib/board/wire.ts'
import type { CaseProjection } from '../../lib/interchange/api.ts'
import { type Store, StoreConflict } from '../store/store.ts'
import { limits } from './limits.ts'
import { projectFloor, projectRecord } from './projection.ts'
import { Room } from './room.ts'
import { type Entry, Session } from './session.ts'

export type Log = (event: string, facts?: Readonly<Record<string, string | number>>) => void

/** All rooms of this process: opened when somebody comes, closed some time after the last one has left. */
export class Hub {
  private readonly store: Store
  private readonly log: Log
  private readonly rooms = new Map<string, Promise<Room>>()
  private readonly idle = new Map<string, NodeJS.Timeout>()
  private readonly projecting = new Map<string, Promise<void>>()
  private readonly lastRoster = new WeakMap<Room, string>()
  private readonly rosterTimer: NodeJS.Timeout
  private readonly accessTimer: NodeJS.Timeout

  constructor(store: Store, log: Log) {
    this.store = store
    this.log = log
    this.rosterTimer = setInterval(() => void this.sendRosters(), limits.rosterTickMs)
    this.accessTimer = setInterval(() => {
      this.checkAccess().catch((error: unknown) => this.log('access-check-failed', { problem: String(error) }))
    }, limits.accessCheckMs)
  }

  /**
   * The room of a document, opened if need be. Entering follows in the same turn, so that no message falls between.
   * @throws RangeError when `name` is not a document name; StoreOutage when it cannot be read
   */
  async open(name: string): Promise<Room> {
    let room = await this.opening(name)
    while (room.isClosed) room = await this.opening(name)
    return room
  }

  enter(room: Room, socket: WebSocket, entry: Entry): void {
    clearTimeout(this.idle.get(room.name))
    room.enter(new Session(room, socket, entry))
  }

  /** Closes sockets whose person's access has run out or whose role is another by now; they may come back with it. */
  async checkAccess(): Promise<void> {
    for (const opening of [...this.rooms.values()]) {
      const room = await opening
      for (const session of [...room.sessions]) {
        const role = session.roleNow === undefined ? session.person.role : await session.roleNow()
        if (role === undefined) session.close(closeCode.revoked, 'your access to this case has ended')
        else if (role !== session.person.role) session.close(closeCode.roleChanged, 'you have another role now')
      }
    }
  }

  /** Closes every socket of somebody whose access ended. */
  async expel(participant: ParticipantId): Promise<void> {
    for (const opening of this.rooms.values()) {
      const room = await opening
      for (const session of room.sessions)
        if (session.person.id === participant) session.close(closeCode.revoked, 'your access to this case has ended')
    }
  }

  /** Documents of an erased case: nobody stays inside, and nothing is written any more. */
  async discardCase(caseId: string): Promise<void> {
    for (const [name, opening] of this.rooms) {
      const room = await opening
      if (room.caseId !== caseId) continue
      this.rooms.delete(name)
      for (const session of room.sessions) session.close(closeCode.revoked, 'this case has been erased')
      room.close()
    }
  }

  async close(): Promise<void> {
    clearInterval(this.rosterTimer)
    clearInterval(this.accessTimer)
    for (const timer of this.idle.values()) clearTimeout(timer)
    const rooms = await Promise.all(this.rooms.values())
    for (const room of rooms) for (const session of room.sessions) session.close(1012, 'the server is restarting')
    await Promise.allSettled([...rooms.map((room) => room.saveSnapshot()), ...this.projecting.values()])
    for (const room of rooms) room.close()
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
    const found = await this.store.load(name)
    return new Room({ name, ...place }, found, this.store, {
      changed: (room) => this.project(room),
      emptied: (room) => this.leaveIdle(room),
      outage: (room, error) => this.discard(room, error),
    })
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
  }

  private discard(room: Room, error: unknown): void {
    this.log('store-outage', { document: room.name, problem: error instanceof Error ? error.message : String(error) })
    this.rooms.delete(room.name)
    room.close()
  }

  /** Writes the columns of a case some time after a change; one write at a time a case, the last one wins. */
  private project(room: Room): void {
    const { caseId } = room
    if (this.projecting.has(caseId)) return
    const work = new Promise((resolve) => setTimeout(resolve, limits.rosterTickMs / 4))
      .then(() => {
        this.projecting.delete(caseId)
        return this.writeProjection(caseId)
      })
      .catch((error: unknown) => this.log('projection-failed', { case: caseId, problem: String(error) }))
    this.projecting.set(caseId, work)
  }

  private async writeProjection(caseId: string): Promise<void> {
    const stored = await this.store.findCase(caseId)
    if (stored === null) return
    let projection: CaseProjection = stored
    for (const opening of this.rooms.values()) {
      const room = await opening
      if (room.caseId === caseId)
        projection = { ...projection, ...(room.kind === 'record' ? projectRecord : projectFloor)(room.tables) }
    }
    try {
      await this.store.saveProjection(caseId, { ...projection, updatedAt: new Date().toISOString() })
    } catch (error) {
      if (!(error instanceof StoreConflict)) throw error // erased meanwhile: there is nothing to keep
    }
  }

  private async sendRosters(): Promise<void> {
    for (const opening of this.rooms.values()) {
      const room = await opening.catch(() => undefined)
      if (room?.kind !== 'record') continue
      const roster = rosterOf(room)
      const text = JSON.stringify(roster)
      const changed = this.lastRoster.get(room) !== text
      this.lastRoster.set(room, text)
      for (const session of room.sessions) if (changed || session.needsRoster()) session.sendRoster(roster)
    }
  }
}

/** Everybody with a name once, however many pages they have open; observers as a number. */
function rosterOf(room: Room): Roster {
  const people = new Map<ParticipantId, Roster['people'][number]>()
  const observers = new Set<ParticipantId>()
  for (const { person } of room.sessions)
    if (rolesWithPresence.includes(person.role))
      people.set(person.id, { id: person.id, name: person.name, affiliation: person.affiliation, role: person.role })
    else observers.add(person.id)
  return { people: [...people.values()].sort((a, b) => (a.id < b.id ? -1 : 1)), observers: observers.size }
}
