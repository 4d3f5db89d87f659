import { afterEach, beforeEach, expect, test, vi } from 'vitest'
import { countingSocket } from '../../../app/board/connection/counting-socket.ts'
import { callEarly, syncAddress, takeEarlyCall } from '../../../app/board/connection/early-call.ts'

/** A socket of a browser, as far as its events go. */
class FakeSocket {
  static readonly made: FakeSocket[] = []
  readonly CLOSING = 2
  readonly OPEN = 1
  readyState = 0
  binaryType = 'blob'
  sent: unknown[] = []
  onopen: ((event: Event) => void) | null = null
  onmessage: ((event: { data: string }) => void) | null = null
  readonly address: string
  constructor(address: string) {
    this.address = address
    FakeSocket.made.push(this)
  }
  send(data: unknown): void {
    this.sent.push(data)
  }
  close(): void {
    this.readyState = 3
  }
  opens(): void {
    this.readyState = 1
    this.onopen?.(new Event('open'))
  }
  says(data: string): void {
    this.onmessage?.({ data })
  }
}

const address = syncAddress('ws://board.example/sync', 'floor', 'teal')
const open = countingSocket({ opened: () => {}, sending: () => {} }, 7, false)

/** What happens on a socket, in order. */
function listen(socket: WebSocket): string[] {
  const events: string[] = []
  socket.onopen = () => events.push('open')
  socket.onmessage = ({ data }) => events.push(data)
  return events
}

beforeEach(() => {
  vi.useFakeTimers()
  vi.stubGlobal('WebSocket', FakeSocket)
  FakeSocket.made.length = 0
})
afterEach(() => {
  vi.runAllTimers()
  vi.useRealTimers()
  vi.unstubAllGlobals()
})

test('the address is that of the provider, which asks for our own messages', () => {
  expect(address).toBe('ws://board.example/sync/floor.teal?own=1')
})

test('what the server said before anybody listened is heard first, in order', async () => {
  callEarly(address)
  const [early] = FakeSocket.made
  early?.opens()
  early?.says('greeting')
  early?.says('news')
  const socket = new open(address)
  const events = listen(socket)
  await Promise.resolve()
  early?.says('later')
  expect(events).toEqual(['open', 'greeting', 'news', 'later'])
  expect([FakeSocket.made.length, early?.binaryType]).toEqual([1, 'arraybuffer'])
})

test('a socket that is still opening is taken as one that was just made', async () => {
  callEarly(address)
  const events = listen(new open(address))
  await Promise.resolve()
  FakeSocket.made[0]?.opens()
  expect(events).toEqual(['open'])
})

test('the second who asks, another address and a socket that closed get one of their own', () => {
  callEarly(address)
  expect(takeEarlyCall('ws://board.example/sync/record.teal?own=1')).toBeUndefined()
  expect(takeEarlyCall(address)).toBeDefined()
  expect(takeEarlyCall(address)).toBeUndefined()
  callEarly(address)
  FakeSocket.made[1]?.close()
  new open(address)
  expect(FakeSocket.made).toHaveLength(3)
})

test('a call that nobody takes up is ended', () => {
  callEarly(address)
  vi.advanceTimersByTime(31_000)
  expect(FakeSocket.made[0]?.readyState).toBe(3)
  expect(takeEarlyCall(address)).toBeUndefined()
})
