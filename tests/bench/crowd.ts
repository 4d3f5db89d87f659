import * as encoding from 'lib0/encoding'
import { WebSocket } from 'ws'
import * as Y from 'yjs'
import { putRecord } from '../../lib/board/edits/writing.ts'
import { presenceFrame, stateVectorFrame, updateFrame } from '../../server/room/frames.ts'
import type { Contestant } from './contestants.ts'

export interface Spread {
  readonly p50: number
  readonly p99: number
  readonly count: number
  /** how many would have come if nothing was lost */
  readonly expected: number
}

/** Many light connections to one document. They look for a marker in each frame and decode nothing. */
export class Crowd {
  private readonly sockets: WebSocket[] = []
  private readonly sentAt = new Map<string, number>()
  /** What each connection has already had of what is sent now: a copy that comes twice counts once. */
  private readonly had = new Map<WebSocket, Set<string>>()
  private readonly delaysMs: number[] = []
  private readonly contestant: Contestant
  private isEchoing = false

  constructor(contestant: Contestant) {
    this.contestant = contestant
  }

  async grow(people: number): Promise<void> {
    const opening = Array.from({ length: people }, () => this.open())
    await Promise.all(opening)
  }

  /** @returns milliseconds from sending an edit to its arrival at each other connection */
  async edit(writers: number, editsPerSecond: number, seconds: number): Promise<Spread> {
    const pens = this.sockets.slice(0, writers).map((socket, index) => this.writer(socket, index))
    for (const pen of pens) pen.ask()
    await quiet(1000)
    this.forget()
    const total = editsPerSecond * seconds
    await this.paced(total, editsPerSecond, pens.length, (n, marker) => pens[n]?.write(marker))
    const expected = total * (this.sockets.length - 1)
    await this.settled(expected)
    return spread(this.delaysMs, expected)
  }

  /**
   * Everybody moves a pointer so many times a second.
   * @param echoing whether each connection sends back what it hears of others, as an unmodified y-websocket client does
   * @returns milliseconds until each other connection knows
   */
  async point(timesPerSecond: number, seconds: number, { echoing }: { readonly echoing: boolean }): Promise<Spread> {
    this.isEchoing = echoing
    const pointers = this.sockets.map(
      (socket, index) => new Pointer(this.sender(socket), this.contestant.participant, index),
    )
    this.forget()
    const total = timesPerSecond * seconds * pointers.length
    await this.paced(total, timesPerSecond * pointers.length, pointers.length, (n, marker) => pointers[n]?.move(marker))
    const expected = total * (this.sockets.length - 1)
    await this.settled(expected)
    return spread(this.delaysMs, expected)
  }

  /** Fills the document with replies until its log has so many bytes. */
  async fill(bytes: number): Promise<void> {
    const [socket] = this.sockets
    if (socket === undefined) throw new RangeError('somebody has to be there to write')
    const writer = this.writer(socket, 0)
    writer.ask()
    for (let written = 0; written < bytes; ) {
      written += writer.writeMany(50, 550)
      await quiet(50)
    }
    await quiet(1500)
  }

  /** Somebody who comes in and has the whole document. @returns milliseconds until then */
  async join(leastBytes: number): Promise<number> {
    const begun = performance.now()
    const socket = new WebSocket(this.contestant.address, { perMessageDeflate: false })
    this.sockets.push(socket)
    await new Promise<void>((resolve, reject) => {
      let received = 0
      socket.once('error', reject)
      socket.on('message', (data: Buffer) => {
        received += data.length
        if (received >= leastBytes) resolve()
      })
      socket.once('open', () => this.greet(socket))
    })
    return performance.now() - begun
  }

  close(): void {
    for (const socket of this.sockets) socket.terminate()
  }

  private forget(): void {
    this.delaysMs.length = 0
    this.sentAt.clear()
    this.had.clear()
  }

  /** The first `senders` connections act in turn. What comes back to its own sender is no arrival. */
  private async paced(
    total: number,
    perSecond: number,
    senders: number,
    act: (sender: number, marker: string) => void,
  ): Promise<void> {
    const begun = performance.now()
    for (let n = 0; n < total; n++) {
      await until(begun + (n * 1000) / perSecond)
      const marker = `#${n}#${Math.round(begun)}`
      const sender = n % senders
      const socket = this.sockets[sender]
      if (socket !== undefined) this.hadBy(socket).add(marker)
      this.sentAt.set(marker, performance.now())
      act(sender, marker)
    }
  }

  private open(): Promise<void> {
    const socket = new WebSocket(this.contestant.address, { perMessageDeflate: false })
    this.sockets.push(socket)
    socket.on('message', (data: Buffer) => this.look(socket, data))
    return new Promise((resolve, reject) => {
      socket.once('error', reject)
      socket.once('open', () => {
        this.greet(socket)
        resolve()
      })
    })
  }

  private hadBy(socket: WebSocket): Set<string> {
    const had = this.had.get(socket) ?? new Set()
    this.had.set(socket, had)
    return had
  }

  private greet(socket: WebSocket): void {
    for (const frame of this.contestant.framing.hello) socket.send(frame)
    this.sender(socket)(stateVectorFrame(new Uint8Array([0])))
  }

  private sender(socket: WebSocket): (frame: Uint8Array) => void {
    const { wrap } = this.contestant.framing
    return (frame) => socket.send(wrap(frame))
  }

  private writer(socket: WebSocket, index: number): Writer {
    return new Writer(this.sender(socket), this.contestant.participant, index)
  }

  private look(socket: WebSocket, data: Buffer): void {
    const now = performance.now()
    const had = this.hadBy(socket)
    const before = this.delaysMs.length
    // A frame may carry several edits merged into one.
    for (let from = data.indexOf('@@'); from !== -1; from = data.indexOf('@@', from + 2)) {
      const end = data.indexOf('@', from + 2)
      const marker = data.toString('latin1', from + 2, end)
      const sent = this.sentAt.get(marker)
      if (sent === undefined || had.has(marker)) continue
      had.add(marker)
      this.delaysMs.push(now - sent)
    }
    // What tells nothing new is not sent back, or frames would go round for ever.
    if (this.isEchoing && this.delaysMs.length > before) socket.send(data)
  }

  /** Waits until all copies have come, or nothing has come for a second: what is lost shows in the count. */
  private async settled(expected: number): Promise<void> {
    for (let last = -1; this.delaysMs.length < expected && last !== this.delaysMs.length; ) {
      last = this.delaysMs.length
      await quiet(1000)
    }
  }
}

type Send = (frame: Uint8Array) => void

/** A panel member who replies to a question of their own: edits that our guard has to read and may let through. */
class Writer {
  private readonly doc = new Y.Doc()
  private readonly question: string
  private readonly author: string
  private replies = 0
  private sentBytes = 0

  constructor(send: Send, author: string, index: number) {
    this.author = author
    this.question = `q${index}-${this.doc.clientID}`
    this.doc.on('update', (update: Uint8Array) => {
      this.sentBytes += update.length
      send(updateFrame(update))
    })
  }

  ask(): void {
    const stamp = { id: this.question, author: this.author, at: new Date().toISOString() }
    putRecord(this.doc, 'questions', { ...stamp, text: 'What if?', state: 'raised', rank: 'a0' })
  }

  write(marker: string): void {
    this.reply(`@@${marker}@`)
  }

  /** So many replies in one frame. @returns bytes that were sent */
  writeMany(count: number, characters: number): number {
    const before = this.sentBytes
    this.doc.transact(() => {
      for (let n = 0; n < count; n++) this.reply('e'.repeat(characters))
    })
    return this.sentBytes - before
  }

  private reply(text: string): void {
    const id = `${this.question}-${this.replies++}`
    const stamp = { id, author: this.author, at: new Date().toISOString() }
    putRecord(this.doc, 'replies', { ...stamp, question: this.question, text })
  }
}

/** Somebody whose page publishes what they are doing; the marker travels where a page says what is typed into. */
class Pointer {
  private readonly send: Send
  private readonly author: string
  private readonly client: number
  private clock = 0

  constructor(send: Send, author: string, index: number) {
    this.send = send
    this.author = author
    this.client = 1_000_000 + index
  }

  move(marker: string): void {
    const user = { id: this.author, name: 'Bench', role: 'team', color: '#336699' }
    const pointer = { ear: 'right', frequencyHz: 1000 + this.clock, levelDbHl: 40 }
    const encoder = encoding.createEncoder()
    encoding.writeVarUint(encoder, 1)
    encoding.writeVarUint(encoder, this.client)
    encoding.writeVarUint(encoder, ++this.clock)
    encoding.writeVarString(encoder, JSON.stringify({ user, pointer, typing: `@@${marker}@` }))
    this.send(presenceFrame(encoding.toUint8Array(encoder)))
  }
}

export const quiet = (ms: number): Promise<void> => new Promise((resolve) => setTimeout(resolve, ms))
const until = (moment: number): Promise<void> =>
  moment <= performance.now() ? Promise.resolve() : quiet(moment - performance.now())

export function spread(valuesMs: readonly number[], expected = valuesMs.length): Spread {
  const sorted = [...valuesMs].sort((a, b) => a - b)
  const at = (share: number) => sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? Number.NaN
  return { p50: at(0.5), p99: at(0.99), count: sorted.length, expected }
}
