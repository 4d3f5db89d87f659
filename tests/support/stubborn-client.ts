import * as decoding from 'lib0/decoding'
import { WebSocket } from 'ws'
import * as Y from 'yjs'
import { messageType, readRefused, readStored, syncStep } from '../../lib/board/wire.ts'
import { stateFrame, stateVectorFrame, updateFrame } from '../../server/room/frames.ts'

/**
 * A protocol client that keeps its document when the link is cut and sends what the server lacks when it is back, as a
 * page does. It remembers which of its edits the server has called stored.
 */
export class StubbornClient {
  readonly doc = new Y.Doc()
  readonly refused: string[] = []
  /** Names of edits that the server said are stored. */
  readonly stored = new Set<string>()
  private socket: WebSocket | undefined
  private sent = 0
  private acknowledged = 0
  /** The server asked for what it lacks and has it: from now on edits go out one by one. A reader is never asked. */
  private asked = false
  private synced = false
  /** Names of edits by the content frame that carried them on this socket. */
  private carried: { frame: number; name: string }[] = []
  private unsent: string[] = []
  private changes = 0
  private readonly watchers = new Set<() => void>()

  constructor() {
    this.doc.on('update', (update: Uint8Array, origin: unknown) => {
      if (origin !== this) this.changes += 1
      if (origin !== this && this.isOpen && this.asked) this.sendContent(updateFrame(update))
    })
  }

  get isOpen(): boolean {
    return this.socket?.readyState === WebSocket.OPEN
  }

  /** Connects once the server listens, and has the state of the document. */
  async connect(address: string, headers: Record<string, string>): Promise<void> {
    const socket = new WebSocket(address, { headers })
    this.socket = socket
    this.sent = 0
    this.acknowledged = 0
    this.asked = false
    this.synced = false
    this.unsent.push(...this.carried.map(({ name }) => name))
    this.carried = []
    socket.on('error', () => undefined)
    socket.on('message', (data: Buffer) => this.hear(new Uint8Array(data)))
    await new Promise<void>((resolve, reject) => {
      socket.once('open', resolve)
      socket.once('close', () => reject(new Error('the socket did not open')))
    })
    socket.send(stateVectorFrame(Y.encodeStateVector(this.doc)))
    const closed = new Promise<never>((_, reject) =>
      socket.once('close', (code) => reject(new Error(`the socket was closed with ${code} before it was in step`))),
    )
    await Promise.race([this.until(() => this.synced), closed])
  }

  /** Makes an edit; if it changes anything, `name` is remembered until the server calls it stored. */
  edit(name: string, change: (doc: Y.Doc) => void): void {
    const { sent: before, changes } = this
    this.doc.transact(() => change(this.doc))
    if (this.changes === changes) return
    if (this.sent > before) this.carried.push({ frame: this.sent, name })
    else this.unsent.push(name)
  }

  /** Everything that it made is stored, or something was refused. */
  settled(): Promise<void> {
    const allStored = () => this.unsent.length === 0 && this.carried.length === 0 && this.acknowledged >= this.sent
    return this.until(() => this.refused.length > 0 || allStored())
  }

  until(holds: () => boolean): Promise<void> {
    if (holds()) return Promise.resolve()
    return new Promise((resolve) => {
      const watch = () => {
        if (!holds()) return
        this.watchers.delete(watch)
        resolve()
      }
      this.watchers.add(watch)
    })
  }

  /** Reads nothing until `resume`: what others do arrives late. */
  pause(): void {
    this.socket?.pause()
  }

  resume(): void {
    this.socket?.resume()
  }

  close(): void {
    this.socket?.terminate()
  }

  private sendContent(frame: Uint8Array): void {
    this.sent += 1
    this.socket?.send(frame)
  }

  private hear(frame: Uint8Array): void {
    const decoder = decoding.createDecoder(frame)
    switch (decoding.readVarUint(decoder)) {
      case messageType.sync:
        this.hearSync(decoder)
        break
      case messageType.stored:
        this.acknowledge(readStored(decoder).frames)
        break
      case messageType.refused:
        this.refused.push(JSON.stringify(readRefused(decoder).refusal))
        break
    }
    for (const watch of [...this.watchers]) watch()
  }

  private hearSync(decoder: decoding.Decoder): void {
    const step = decoding.readVarUint(decoder)
    const body = decoding.readVarUint8Array(decoder)
    if (step === syncStep.step1) return this.sendMissing(body)
    Y.applyUpdate(this.doc, body, this)
    if (step === syncStep.step2) this.synced = true
  }

  /** The server asked for what it lacks: all that was made while the link was away goes in this frame. */
  private sendMissing(stateVector: Uint8Array): void {
    this.sendContent(stateFrame(Y.encodeStateAsUpdate(this.doc, stateVector)))
    this.carried.push(...this.unsent.map((name) => ({ frame: this.sent, name })))
    this.unsent = []
    this.asked = true
  }

  private acknowledge(frames: number): void {
    this.acknowledged = Math.max(this.acknowledged, frames)
    for (const { name } of this.carried.filter(({ frame }) => frame <= frames)) this.stored.add(name)
    this.carried = this.carried.filter(({ frame }) => frame > frames)
  }
}
