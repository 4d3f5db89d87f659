import { EventEmitter } from 'node:events'
import { afterEach, beforeEach, expect, it } from 'vitest'
import type { WebSocket } from 'ws'
import * as Y from 'yjs'
import { stateFrame, stateVectorFrame } from '../../../server/room/frames.ts'
import { limits } from '../../../server/room/limits.ts'
import type { Room } from '../../../server/room/room.ts'
import { Session } from '../../../server/room/session.ts'

/** A socket whose other end asks and never reads. */
class FullSocket extends EventEmitter {
  readonly OPEN = 1
  readonly readyState = 1
  bufferedAmount = 0
  readonly sent: Uint8Array[] = []
  terminated = false

  send(frame: Uint8Array): void {
    this.sent.push(frame)
    this.bufferedAmount += frame.length
  }
  close(): void {}
  terminate(): void {
    this.terminated = true
  }
}

const state = new Uint8Array(limits.backlogBytes / 2)
const room = {
  difference: () => [stateFrame(state)],
  presence: { all: () => state },
  leave: () => undefined,
} as unknown as Room
const person = { id: 'p-obs', name: 'Obs', affiliation: '', role: 'observer' } as const
const askForState = stateVectorFrame(Y.encodeStateVector(new Y.Doc()))
const askWhoIsHere = new Uint8Array([3])

let socket: FullSocket
let session: Session
beforeEach(() => {
  socket = new FullSocket()
  session = new Session(room, socket as unknown as WebSocket, { person, hearsOwn: false, roleNow: undefined })
})
afterEach(() => void socket.emit('close'))

const ask = (frame: Uint8Array, times: number) => {
  for (let asked = 0; asked < times; asked++) socket.emit('message', Buffer.from(frame))
}

it('that asks for the state again and again without reading fills no memory, and gets one answer when it reads', () => {
  ask(askForState, 100)
  expect(socket.bufferedAmount).toBeLessThan(2 * limits.backlogBytes)
  const answers = socket.sent.length
  socket.bufferedAmount = 0
  session.catchUp(performance.now())
  expect(socket.sent.length).toBe(answers + 1)
})

it('that never reads is ended, although it asks on', () => {
  ask(askForState, 100)
  session.catchUp(performance.now() + limits.laggingMs + 1000)
  expect(socket.terminated).toBe(true)
})

it('that asks who is here without reading is told once', () => {
  ask(askWhoIsHere, 20)
  expect(socket.sent.length).toBe(1)
})
