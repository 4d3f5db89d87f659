import * as decoding from 'lib0/decoding'
import { type ClientOptions, WebSocket } from 'ws'
import * as Y from 'yjs'
import type { Refusal } from '../../lib/board/refusals.ts'
import { messageType, type Roster, readRefused, readRoster, readStored, syncStep } from '../../lib/board/wire.ts'
import { stateFrame, stateVectorFrame, updateFrame } from '../../server/room/frames.ts'

export type Answer = 'stored' | Refusal

/** A protocol client without a page: one socket, one document, and the server's answer to each frame it sends. */
export class LightClient {
  readonly doc = new Y.Doc()
  readonly socket: WebSocket
  /** What others publish of themselves, by CRDT client id, as the JSON that was sent. */
  readonly presences = new Map<number, string>()
  roster: Roster | undefined
  /** Sync frames heard: whole differences, and single edits passed on. */
  readonly heard = { states: 0, updates: 0 }
  private sent = 0
  private readonly waiting = new Map<number, (answer: Answer) => void>()
  private readonly opened: Promise<void>
  private readonly watchers = new Set<() => void>()

  constructor(address: string, options: ClientOptions = {}) {
    this.socket = new WebSocket(address, options)
    this.opened = new Promise((resolve, reject) => {
      this.socket.once('open', () => resolve())
      this.socket.once('error', reject)
    })
    this.socket.on('error', () => undefined)
    this.socket.on('message', (data: Buffer) => this.hear(new Uint8Array(data)))
  }

  /** Opens, asks for the state and has it. */
  static async join(address: string, options: ClientOptions = {}): Promise<LightClient> {
    const client = new LightClient(address, options)
    await client.opened
    await client.ask()
    return client
  }

  /** Asks for what it lacks and has it; the server has then dealt with everything sent before. */
  async ask(): Promise<void> {
    const { states } = this.heard
    this.socket.send(stateVectorFrame(Y.encodeStateVector(this.doc)))
    await this.until(() => this.heard.states > states)
  }

  /** Sends bytes as an update and waits for what the server makes of them. */
  send(update: Uint8Array): Promise<Answer> {
    this.sent += 1
    const frame = this.sent
    const answer = new Promise<Answer>((resolve) => this.waiting.set(frame, resolve))
    this.socket.send(updateFrame(update))
    return answer
  }

  /** Edits a throw-away copy (a fresh client id each time) and sends what that made; keeps it once it is stored. */
  async attempt(edit: (copy: Y.Doc) => void): Promise<Answer> {
    const update = updateOf(this.doc, edit)
    const answer = await this.send(update)
    if (answer === 'stored') Y.applyUpdate(this.doc, update, this)
    return answer
  }

  /** Resolves once `holds` is true, looking after every frame. */
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

  closed(): Promise<{ code: number; reason: string }> {
    return new Promise((resolve) =>
      this.socket.once('close', (code, reason) => resolve({ code, reason: String(reason) })),
    )
  }

  close(): void {
    this.socket.terminate()
    this.doc.destroy()
  }

  private hear(frame: Uint8Array): void {
    const decoder = decoding.createDecoder(frame)
    switch (decoding.readVarUint(decoder)) {
      case messageType.sync:
        this.hearSync(decoder)
        break
      case messageType.awareness:
        this.hearPresence(decoding.createDecoder(decoding.readVarUint8Array(decoder)))
        break
      case messageType.roster:
        this.roster = readRoster(decoder)
        break
      case messageType.stored:
        this.settleUpTo(readStored(decoder).frames)
        break
      case messageType.refused: {
        const { frame: number, refusal } = readRefused(decoder)
        this.settle(number, refusal)
        break
      }
    }
    for (const watch of [...this.watchers]) watch()
  }

  private hearSync(decoder: decoding.Decoder): void {
    const step = decoding.readVarUint(decoder)
    const body = decoding.readVarUint8Array(decoder)
    if (step === syncStep.step1) return this.reply(body)
    Y.applyUpdate(this.doc, body, this)
    if (step === syncStep.step2) this.heard.states += 1
    else this.heard.updates += 1
  }

  private hearPresence(states: decoding.Decoder): void {
    for (let left = decoding.readVarUint(states); left > 0; left--) {
      const client = decoding.readVarUint(states)
      decoding.readVarUint(states)
      this.presences.set(client, decoding.readVarString(states))
    }
  }

  private reply(stateVector: Uint8Array): void {
    this.sent += 1
    this.socket.send(stateFrame(Y.encodeStateAsUpdate(this.doc, stateVector)))
  }

  private settleUpTo(frames: number): void {
    for (const frame of [...this.waiting.keys()]) if (frame <= frames) this.settle(frame, 'stored')
  }

  private settle(frame: number, answer: Answer): void {
    this.waiting.get(frame)?.(answer)
    this.waiting.delete(frame)
  }
}

/** What an edit on a copy of `doc` would send. */
export function updateOf(doc: Y.Doc, edit: (copy: Y.Doc) => void): Uint8Array {
  const copy = new Y.Doc()
  Y.applyUpdate(copy, Y.encodeStateAsUpdate(doc))
  const before = Y.encodeStateVector(copy)
  const updates: Uint8Array[] = []
  copy.on('update', (update: Uint8Array) => updates.push(update))
  copy.transact(() => edit(copy))
  copy.destroy()
  return updates.length === 0 ? Y.encodeStateAsUpdate(copy, before) : Y.mergeUpdates(updates)
}
