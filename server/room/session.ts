import type { WebSocket } from 'ws'
import * as Y from 'yjs'
import type { ParticipantId } from '../../lib/board/identity.ts'
import { type Refusal, refusal } from '../../lib/board/refusals.ts'
import type { Role } from '../../lib/board/roles.ts'
import { closeCode, encodeOwn, type Roster } from '../../lib/board/wire.ts'
import { presenceFrame, readFrame, stateVectorFrame } from './frames.ts'
import { limits } from './limits.ts'
import type { Room } from './room.ts'
import { TokenBucket } from './token-bucket.ts'

/** Who holds a socket, as the server knows it. */
export interface Person {
  readonly id: ParticipantId
  readonly name: string
  readonly affiliation: string
  readonly role: Role
}

/** With what somebody comes in. */
export interface Entry {
  readonly person: Person
  /** whether the page asked for our own messages */
  readonly hearsOwn: boolean
  readonly roleNow: (() => Promise<Role | undefined>) | undefined
}

/** A reader that is behind: what it last had, and since when it has been waiting, by a clock that nobody sets. */
interface Lagging {
  readonly stateVector: Uint8Array
  readonly sinceMs: number
}

/** One socket of one person in one room: its bounds, its backlog and its count of content frames. */
export class Session {
  readonly person: Person
  /** The role that the person has now; undefined for a ticket, which is judged once. */
  readonly roleNow: (() => Promise<Role | undefined>) | undefined
  private readonly room: Room
  private readonly socket: WebSocket
  private readonly hearsOwn: boolean
  private readonly content: TokenBucket
  private readonly presence: TokenBucket
  private readonly refusals: TokenBucket
  private received = 0
  private lagging: Lagging | undefined
  private alive = true
  private knowsRoster = false
  private readonly heartbeat: NodeJS.Timeout

  constructor(room: Room, socket: WebSocket, entry: Entry) {
    this.room = room
    this.socket = socket
    this.person = entry.person
    this.roleNow = entry.roleNow
    this.hearsOwn = entry.hearsOwn
    const nowMs = Date.now()
    this.content = new TokenBucket(limits.framesPerSecond, limits.frameBurst, nowMs)
    this.presence = new TokenBucket(limits.presencePerSecond, limits.presenceBurst, nowMs)
    this.refusals = new TokenBucket(limits.refusalsPerMinute / 60, limits.refusalsPerMinute, nowMs)
    this.heartbeat = setInterval(() => this.beat(), limits.heartbeatMs)
    socket.on('message', (data: ArrayBuffer | Buffer | Buffer[]) => this.receive(data))
    socket.on('pong', () => {
      this.alive = true
    })
    socket.on('error', () => socket.terminate())
    socket.on('close', () => this.leave())
  }

  /** Says hello: asks somebody who may write for what we do not have yet, and tells who is pointing. */
  greet(stateVector: Uint8Array | undefined, presence: Uint8Array | undefined): void {
    if (stateVector !== undefined) this.send(stateVectorFrame(stateVector))
    if (presence !== undefined) this.send(presence)
  }

  /** The content frame of this number has been stored. */
  stored(frames: number): void {
    if (this.hearsOwn) this.send(encodeOwn('stored', { frames }))
  }

  refuse(frame: number, refused: Refusal): void {
    this.room.tellRefusal(refused.code, this.person.id)
    if (this.hearsOwn) this.send(encodeOwn('refused', { frame, refusal: refused }))
    if (!this.refusals.take(Date.now())) this.close(closeCode.tooFast, 'too many refused edits; reload the page')
  }

  /** Whether this page has not heard yet who is here. */
  needsRoster(): boolean {
    return this.hearsOwn && !this.knowsRoster
  }

  sendRoster(roster: Roster): void {
    this.knowsRoster = true
    if (this.hearsOwn) this.send(encodeOwn('roster', roster))
  }

  /** Passes on what others did, unless this reader is behind: then one difference follows when it has drained. */
  deliver(frame: Uint8Array, stateVectorBefore: () => Uint8Array): void {
    if (this.lagging !== undefined) return
    if (this.socket.bufferedAmount > limits.backlogBytes)
      this.lagging = { stateVector: stateVectorBefore(), sinceMs: performance.now() }
    else this.send(frame)
  }

  /** Presence is not owed to a reader that is behind. */
  deliverPresence(frame: Uint8Array): void {
    if (this.lagging === undefined && this.socket.bufferedAmount <= limits.drainedBytes) this.send(frame)
  }

  /** Brings a reader that has drained up to date; called on the room's tick. */
  catchUp(nowMs: number): void {
    if (this.lagging === undefined) return
    if (this.socket.bufferedAmount <= limits.drainedBytes) {
      const { stateVector } = this.lagging
      this.lagging = undefined
      this.sendDifference(stateVector)
    } else if (nowMs - this.lagging.sinceMs > limits.laggingMs) this.socket.terminate()
  }

  close(code: number, reason: string): void {
    this.socket.close(code, reason)
  }

  private send(frame: Uint8Array): void {
    if (this.socket.readyState === this.socket.OPEN) this.socket.send(frame)
  }

  private receive(data: ArrayBuffer | Buffer | Buffer[]): void {
    const frame = readFrame(asBytes(data))
    const nowMs = Date.now()
    switch (frame.kind) {
      case 'state-vector':
        return this.answer(frame.stateVector, nowMs)
      case 'content':
        return this.take(frame.update, nowMs)
      case 'presence':
        if (!this.room.presence.isKnown(frame.states) && this.presence.take(nowMs))
          this.room.presence.receive(this, this.person, frame.states)
        return
      case 'presence-query': {
        const all = this.presence.take(nowMs) ? this.room.presence.all() : undefined
        if (all !== undefined) this.deliverPresence(all)
        return
      }
      case 'unreadable':
        return this.refuse(this.received, refusal('malformed', this.room.name, {}))
      default:
        return frame satisfies never
    }
  }

  private answer(stateVector: Uint8Array, nowMs: number): void {
    if (!this.content.take(nowMs)) return this.close(closeCode.tooFast, 'too many requests')
    try {
      Y.decodeStateVector(stateVector)
    } catch {
      return this.refuse(this.received, refusal('malformed', this.room.name, {}))
    }
    // Whoever asks on without reading would fill the memory with answers: one follows when the link has drained.
    if (this.socket.bufferedAmount > limits.backlogBytes)
      this.lagging = { stateVector, sinceMs: this.lagging?.sinceMs ?? performance.now() }
    else this.sendDifference(stateVector)
  }

  private sendDifference(stateVector: Uint8Array): void {
    for (const frame of this.room.difference(stateVector)) this.send(frame)
  }

  private take(update: Uint8Array, nowMs: number): void {
    this.received += 1
    // Closing loses nothing: the page reconnects and sends in one frame what is missing here.
    if (!this.content.take(nowMs))
      return this.close(closeCode.tooFast, `more than ${limits.framesPerSecond} edits a second`)
    this.room.receive(this, this.received, update, nowMs)
  }

  private beat(): void {
    if (!this.alive) return this.socket.terminate()
    this.alive = false
    this.socket.ping()
    // A y-websocket client takes a link on which it has heard nothing for 30 seconds for lost.
    this.send(nothingNew)
  }

  private leave(): void {
    clearInterval(this.heartbeat)
    this.room.leave(this)
  }
}

const nothingNew = presenceFrame(new Uint8Array([0]))

function asBytes(data: ArrayBuffer | Buffer | Buffer[]): Uint8Array {
  if (Array.isArray(data)) return Buffer.concat(data)
  return data instanceof ArrayBuffer ? new Uint8Array(data) : data
}
