// A page without a browser: the few globals that following needs, in the test's hands.
import { afterEach, beforeAll, beforeEach, describe, expect, it, vi } from 'vitest'
import { type Following, ProgrammeFollower } from '../../../app/meeting/programme-follower.ts'
import { everywhere } from '../../../app/messages/parts/everywhere.ts'
import { refusalsPart } from '../../../app/messages/parts/refusals.ts'
import type { ProgrammeDetail } from '../../../lib/interchange/api.ts'
import { followTickMs } from '../../../lib/interchange/follow.ts'

beforeAll(() => Promise.all([everywhere.load('en'), refusalsPart.load('en')]))

const at = '2026-03-02T08:00:00.000Z'
const detailOf = (onNow: ProgrammeDetail['onNow']): ProgrammeDetail => ({
  programme: { id: 'day', label: 'Day', createdAt: at },
  cases: [],
  onNow,
  next: null,
  role: 'panel',
})
const between = detailOf({ kind: 'between', since: null })
const onHeron = detailOf({ kind: 'case', id: 'heron', since: at })

class FakeSocket {
  static all: FakeSocket[] = []
  onmessage: ((event: { data: string }) => void) | null = null
  onclose: (() => void) | null = null
  isClosed = false
  readonly url: string
  constructor(url: string) {
    this.url = url
    FakeSocket.all.push(this)
  }
  close() {
    this.isClosed = true
  }
  say(detail: unknown) {
    this.onmessage?.({ data: detail === '' ? '' : JSON.stringify(detail) })
  }
}

let told: Following[]
let answer: () => Promise<Response>
let asked: number
let follower: ProgrammeFollower
const page = new EventTarget()
const json = (body: unknown, status = 200) => new Response(JSON.stringify(body), { status })
const last = () => told.at(-1)
const socket = () => FakeSocket.all.at(-1) ?? expect.fail('no socket was opened')
const settle = () => vi.advanceTimersByTimeAsync(0)

beforeEach(async () => {
  vi.useFakeTimers({ now: new Date(at) })
  FakeSocket.all = []
  told = []
  asked = 0
  answer = async () => json(between)
  vi.stubGlobal('location', { protocol: 'https:', host: 'board.example.org' })
  vi.stubGlobal('WebSocket', FakeSocket)
  vi.stubGlobal('fetch', () => {
    asked++
    return answer()
  })
  vi.stubGlobal('addEventListener', page.addEventListener.bind(page))
  vi.stubGlobal('removeEventListener', page.removeEventListener.bind(page))
  follower = new ProgrammeFollower('day', (following) => told.push(following))
  follower.start()
  await settle()
})
afterEach(() => {
  follower.stop()
  vi.useRealTimers()
  vi.unstubAllGlobals()
})

describe('following a programme', () => {
  it('shows what the plain answer said, then each change', () => {
    expect(last()).toEqual({ state: 'following', detail: between, link: { state: 'live' } })
    expect(socket().url).toBe('wss://board.example.org/follow/day')
    socket().say(onHeron)
    expect(last()).toMatchObject({ detail: onHeron, link: { state: 'live' } })
  })

  it('keeps what was known, says since when it may be old, and is live again with the first word', async () => {
    socket().say(onHeron)
    socket().onclose?.()
    expect(last()).toEqual({ state: 'following', detail: onHeron, link: { state: 'lost', since: at, why: 'link' } })
    await vi.advanceTimersByTimeAsync(1000)
    expect(FakeSocket.all).toHaveLength(2)
    expect(last()).toMatchObject({ detail: between, link: { state: 'lost' } })
    socket().say(between)
    expect(last()).toMatchObject({ link: { state: 'live' } })
  })

  it('takes silence for a loss, and a sign of life for none', async () => {
    for (let sign = 0; sign < 5; sign++) {
      await vi.advanceTimersByTimeAsync(2 * followTickMs)
      socket().say('')
    }
    expect(FakeSocket.all).toHaveLength(1)
    await vi.advanceTimersByTimeAsync(3 * followTickMs)
    expect(last()).toMatchObject({ link: { state: 'lost' } })
    expect(FakeSocket.all[0]?.isClosed).toBe(true)
  })

  it('goes on asking while the server is away, and never more often than every 1.5 seconds in the end', async () => {
    answer = () => Promise.reject(new TypeError('network'))
    socket().onclose?.()
    await vi.advanceTimersByTimeAsync(60_000)
    expect(asked).toBeGreaterThan(15)
    expect(asked).toBeLessThan(50)
    answer = async () => json(onHeron)
    await vi.advanceTimersByTimeAsync(3000)
    expect(last()).toMatchObject({ detail: onHeron })
  })

  it('says that it is the server that does not reach its data, and goes on from when that began', async () => {
    answer = async () => json({ error: { code: 'unavailable', message: 'Try again.' } }, 503)
    socket().onclose?.()
    expect(last()).toMatchObject({ link: { state: 'lost', since: at, why: 'link' } })
    await vi.advanceTimersByTimeAsync(1000)
    expect(last()).toMatchObject({ link: { state: 'lost', since: at, why: 'store' } })
  })

  it('asks again at once when the device says that its network is back', async () => {
    page.dispatchEvent(new Event('offline'))
    expect(last()).toMatchObject({ link: { state: 'lost' } })
    const before = asked
    page.dispatchEvent(new Event('online'))
    expect(asked).toBe(before + 1)
  })

  it('stops, and says why, when the programme may not be read any more', async () => {
    answer = async () => json({ error: { code: 'not-permitted', message: 'Ask for a link.' } }, 403)
    socket().onclose?.()
    await vi.advanceTimersByTimeAsync(60_000)
    expect(last()).toEqual({ state: 'failed', reason: 'Ask for a link.', code: 'not-permitted' })
    expect(asked).toBe(2)
  })

  it('stops when the server says what this page does not understand', () => {
    socket().say({ another: 'form' })
    expect(last()).toMatchObject({ state: 'failed', code: 'unreadable' })
    expect(socket().isClosed).toBe(true)
  })

  it('holds no socket and asks nothing once it is stopped', async () => {
    follower.stop()
    expect(socket().isClosed).toBe(true)
    await vi.advanceTimersByTimeAsync(60_000)
    expect([asked, FakeSocket.all.length]).toEqual([1, 1])
  })
})
