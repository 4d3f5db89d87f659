import { WebSocket } from 'ws'
import * as Y from 'yjs'
import { putRecord } from '../../lib/board/edits/writing.ts'
import { stateVectorFrame, updateFrame } from '../../server/room/frames.ts'

export interface Spread {
  readonly p50: number
  readonly p99: number
  readonly count: number
}

/** Many light connections to one document. They look for a marker in each frame and decode nothing. */
export class Crowd {
  private readonly sockets: WebSocket[] = []
  private readonly sentAt = new Map<string, number>()
  private readonly delaysMs: number[] = []

  private readonly participant: string

  constructor(participant: string) {
    this.participant = participant
  }

  async grow(address: string, people: number): Promise<void> {
    const opening = Array.from({ length: people }, () => this.open(address))
    await Promise.all(opening)
  }

  /** @returns milliseconds from sending an edit to its arrival at each other connection */
  async edit(writers: number, editsPerSecond: number, seconds: number): Promise<Spread> {
    const pens = this.sockets.slice(0, writers).map((socket, index) => new Writer(socket, this.participant, index))
    for (const pen of pens) pen.ask()
    await quiet(1000)
    this.delaysMs.length = 0
    const total = editsPerSecond * seconds
    const begun = performance.now()
    for (let n = 0; n < total; n++) {
      await until(begun + (n * 1000) / editsPerSecond)
      const marker = `#${n}#${Math.round(begun)}`
      this.sentAt.set(marker, performance.now())
      pens[n % pens.length]?.write(marker)
    }
    await this.settled(total * (this.sockets.length - 1))
    return spread(this.delaysMs)
  }

  close(): void {
    for (const socket of this.sockets) socket.terminate()
  }

  private open(address: string): Promise<void> {
    const socket = new WebSocket(address, { perMessageDeflate: false })
    this.sockets.push(socket)
    socket.on('message', (data: Buffer) => this.look(data))
    return new Promise((resolve, reject) => {
      socket.once('error', reject)
      socket.once('open', () => {
        socket.send(stateVectorFrame(new Uint8Array([0])))
        resolve()
      })
    })
  }

  private look(data: Buffer): void {
    const now = performance.now()
    // A frame may carry several edits merged into one.
    for (let from = data.indexOf('@@'); from !== -1; from = data.indexOf('@@', from + 2)) {
      const end = data.indexOf('@', from + 2)
      const sent = this.sentAt.get(data.toString('latin1', from + 2, end))
      if (sent === undefined) continue
      this.delaysMs.push(now - sent)
    }
  }

  /** Waits until all copies have come, or nothing has come for a second: what is lost shows in the count. */
  private async settled(expected: number): Promise<void> {
    for (let last = -1; this.delaysMs.length < expected && last !== this.delaysMs.length; ) {
      last = this.delaysMs.length
      await quiet(1000)
    }
  }
}

/** A panel member who replies to a question of their own: edits that our guard has to read and may let through. */
class Writer {
  private readonly doc = new Y.Doc()
  private readonly question: string
  private readonly author: string
  private replies = 0

  constructor(socket: WebSocket, author: string, index: number) {
    this.author = author
    this.question = `q${index}-${this.doc.clientID}`
    this.doc.on('update', (update: Uint8Array) => socket.send(updateFrame(update)))
  }

  ask(): void {
    const stamp = { id: this.question, author: this.author, at: new Date().toISOString() }
    putRecord(this.doc, 'questions', { ...stamp, text: 'What if?', state: 'raised', rank: 'a0' })
  }

  write(marker: string): void {
    const id = `${this.question}-${this.replies++}`
    putRecord(this.doc, 'replies', {
      id,
      author: this.author,
      at: new Date().toISOString(),
      question: this.question,
      text: `@@${marker}@`,
    })
  }
}

const quiet = (ms: number): Promise<void> => new Promise((resolve) => setTimeout(resolve, ms))
const until = (moment: number): Promise<void> =>
  moment <= performance.now() ? Promise.resolve() : quiet(moment - performance.now())

export function spread(valuesMs: readonly number[]): Spread {
  const sorted = [...valuesMs].sort((a, b) => a - b)
  const at = (share: number) => sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? Number.NaN
  return { p50: at(0.5), p99: at(0.99), count: sorted.length }
}
