import { createServer, type Server } from 'node:http'
import type { AddressInfo } from 'node:net'
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { WebSocket } from 'ws'
import type { Role } from '../../../lib/board/roles.ts'
import { closeCode } from '../../../lib/board/wire.ts'
import { ApiError, CaseList, ProgrammeDetail, ProgrammeList } from '../../../lib/interchange/api.ts'
import { createExchange } from '../../../server/exchange/exchange.ts'
import { createApi } from '../../../server/http/api.ts'
import { originsOf } from '../../../server/http/origin.ts'
import { createThrottle } from '../../../server/http/throttle.ts'
import { createLog } from '../../../server/log.ts'
import { FollowEndpoint, followLimits } from '../../../server/meeting/follow-endpoint.ts'
import { createMetrics } from '../../../server/metrics/metrics.ts'
import { createPeople, type People } from '../../../server/people/people.ts'
import { sessionCookie } from '../../../server/people/session-cookie.ts'
import { createSigner } from '../../../server/people/signer.ts'
import { createPictures } from '../../../server/pictures/pictures.ts'
import { Hub } from '../../../server/room/hub.ts'
import { Series } from '../../../server/series/series.ts'
import { openSqliteStore } from '../../../server/store/sqlite-store.ts'
import type { Scope, Store } from '../../../server/store/store.ts'
import { createUnnamed } from '../../../server/unnamed/unnamed.ts'
import { createVotes } from '../../../server/votes/votes.ts'
import { createWithdrawals } from '../../../server/withdrawals/withdrawals.ts'
import { makeTemporaryFolder, removeFolder } from '../../support/temporary-folder.ts'

const at = '2026-03-02T08:00:00.000Z'
const clock = { now: new Date(at) }
const toDay: Scope = { kind: 'programme', id: 'day' }

let folder: string
let store: Store
let people: People
let follow: FollowEndpoint
let hub: Hub
let server: Server
let url: string
/** Cases whose patient has not agreed to a broadcast. */
const withoutConsent = new Set<string>()
const followers: WebSocket[] = []

beforeEach(async () => {
  folder = await makeTemporaryFolder()
  store = await openSqliteStore(join(folder, 'store.db'))
  clock.now = new Date(at)
  for (const id of ['day', 'other']) await store.createProgramme({ id, label: `Label of ${id}`, createdAt: at })
  for (const [id, rank] of [
    ['heron', 'a0'],
    ['plover', 'a1'],
    ['teal', 'a2'],
  ] as const)
    await store.createCase({ id, programme: 'day', label: id, rank, createdAt: at })
  await store.createCase({ id: 'foreign', programme: 'other', label: 'foreign', rank: 'a0', createdAt: at })
  withoutConsent.clear()
  await serveAll()
})
afterEach(async () => {
  await stopServing()
  await store.close()
  await removeFolder(folder)
})

async function serveAll() {
  const now = () => clock.now
  people = createPeople({ store, signer: createSigner(new Uint8Array(32).fill(7)), cookie: sessionCookie(false), now })
  const origins = originsOf(undefined)
  follow = new FollowEndpoint({
    store,
    log: () => undefined,
    authenticate: people.authenticate,
    isOwnOrigin: ({ headers }) => origins.mayConnect(headers),
    tickMs: 20,
  })
  people.onRevoked((participant) => follow.expel(participant))
  hub = new Hub(store, () => undefined)
  const log = createLog(() => undefined, now)
  const api = createApi({
    store,
    people,
    votes: createVotes({ store, hub, now }),
    withdrawals: createWithdrawals({ store, hub, now, newId: () => 'withdrawn' }),
    hasConsent: async (id) => !withoutConsent.has(id),
    unnamed: createUnnamed({ store, hub, now }),
    pictures: createPictures({ store, hub, now, newId: () => 'id' }),
    exchange: createExchange({ store, hub, now, newId: () => 'id' }),
    series: new Series(store, log),
    origins,
    now,
    log,
    throttle: createThrottle(() => now().getTime()),
    metrics: createMetrics(),
    metricsToken: undefined,
    isClosing: () => false,
    canStore: () => true,
    programmeChanged: (programme) => follow.changed(programme),
  })
  server = createServer((request, response) => void api(request, response))
  server.on('upgrade', (request, socket, head) => follow.handleUpgrade(request, socket, head))
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve))
  url = `http://127.0.0.1:${(server.address() as AddressInfo).port}`
}

async function stopServing() {
  for (const socket of followers.splice(0)) socket.terminate()
  follow.close()
  await hub.close()
  server.closeAllConnections()
  await new Promise((resolve) => server.close(resolve))
}

const post = (path: string, body: unknown, cookie: string) =>
  fetch(url + path, {
    method: 'POST',
    headers: { cookie, origin: url, 'content-type': 'application/json' },
    body: JSON.stringify(body),
  })
const get = async (path: string, cookie: string) => (await fetch(url + path, { headers: { cookie } })).json()
const detailFor = async (cookie: string) => ProgrammeDetail.parse(await get('/api/programmes/day', cookie))
const codeOf = async (response: Response) => [response.status, ApiError.parse(await response.json()).error.code]

async function guest(role: Role, scope: Scope = toDay) {
  const wanted = { role, scope, label: 'guest', expiresAt: null, accessUntil: null }
  const { token, invitation } = await people.invite(wanted)
  const response = await post('/api/join', { token, name: role, affiliation: 'Clinic' }, '')
  return { cookie: response.headers.get('set-cookie')?.split(';')[0] ?? '', invitation: invitation.id }
}

/** Follows as a page does, and keeps what it is told. */
class Listener {
  readonly heard: ProgrammeDetail[] = []
  readonly socket: WebSocket
  readonly closed: Promise<number>
  signs = 0
  private wake = (): void => undefined

  constructor(cookie: string, { origin = url, programme = 'day' } = {}) {
    this.socket = new WebSocket(`${url.replace('http', 'ws')}/follow/${programme}`, { headers: { cookie, origin } })
    followers.push(this.socket)
    this.closed = new Promise((resolve) => this.socket.on('close', resolve))
    this.socket.on('error', () => undefined)
    this.socket.on('message', (data) => {
      const text = String(data)
      if (text === '') this.signs++
      else this.heard.push(ProgrammeDetail.parse(JSON.parse(text)))
      this.wake()
    })
  }

  /** The newest state that was told, as soon as it is as wanted. */
  async until(isWanted: (detail: ProgrammeDetail) => boolean): Promise<ProgrammeDetail> {
    for (;;) {
      const last = this.heard.at(-1)
      if (last !== undefined && isWanted(last)) return last
      await this.next()
    }
  }

  next(): Promise<void> {
    return new Promise((resolve) => {
      this.wake = resolve
    })
  }
}

describe('the day of a programme', () => {
  it('has its cases in order, without times, with nothing on and the first one next', async () => {
    const { cookie } = await guest('observer')
    expect(await detailFor(cookie)).toMatchObject({
      cases: [{ id: 'heron', plannedAt: null, breakBefore: '' }, { id: 'plover' }, { id: 'teal' }],
      onNow: { kind: 'between', since: null },
      next: 'heron',
      role: 'observer',
    })
  })

  it('is put in order and given times by its moderator, and everybody reads it', async () => {
    const { cookie } = await guest('moderator')
    const ordered = await post('/api/programmes/day/order', { cases: ['teal', 'heron', 'plover'] }, cookie)
    expect(ProgrammeDetail.parse(await ordered.json()).cases.map(({ id }) => id)).toEqual(['teal', 'heron', 'plover'])
    const slot = { plannedAt: '2026-03-02T10:45:00.000Z', breakBefore: '  Coffee ' }
    expect((await post('/api/programmes/day/cases/heron/slot', slot, cookie)).status).toBe(200)
    const panel = (await guest('panel')).cookie
    expect((await detailFor(panel)).cases[1]).toMatchObject({ id: 'heron', ...slot, breakBefore: 'Coffee' })
    expect(CaseList.parse(await get('/api/cases', panel)).cases.map(({ plannedAt }) => plannedAt)).toEqual([
      null,
      slot.plannedAt,
      null,
    ])
  })

  it('brings a case on, goes between cases, and knows what comes next in the order that holds then', async () => {
    const { cookie } = await guest('moderator')
    const say = async (body: unknown) => {
      const { onNow, next } = ProgrammeDetail.parse(await (await post('/api/programmes/day/now', body, cookie)).json())
      return [onNow, next]
    }
    expect(await say({ kind: 'case', id: 'heron' })).toEqual([{ kind: 'case', id: 'heron', since: at }, 'plover'])
    clock.now = new Date('2026-03-02T09:00:00Z')
    expect(await say({ kind: 'case', id: 'heron' })).toEqual([{ kind: 'case', id: 'heron', since: at }, 'plover'])
    expect(await say({ kind: 'between' })).toEqual([{ kind: 'between', since: '2026-03-02T09:00:00.000Z' }, 'plover'])
    await post('/api/programmes/day/order', { cases: ['plover', 'heron', 'teal'] }, cookie)
    expect((await detailFor(cookie)).next).toBe('teal')
    expect((await say({ kind: 'case', id: 'teal' }))[1]).toBeNull()
    const [listed] = ProgrammeList.parse(await get('/api/programmes', cookie)).programmes
    expect(listed?.onNow).toMatchObject({ kind: 'case', id: 'teal' })
  })

  it('brings no case on without recorded consent, and says what to do', async () => {
    const { cookie } = await guest('moderator')
    withoutConsent.add('heron')
    const refused = await post('/api/programmes/day/now', { kind: 'case', id: 'heron' }, cookie)
    expect(await codeOf(refused)).toEqual([409, 'no-consent'])
    expect((await detailFor(cookie)).onNow.kind).toBe('between')
    withoutConsent.clear()
    expect((await post('/api/programmes/day/now', { kind: 'case', id: 'heron' }, cookie)).status).toBe(200)
  })

  it('tells nobody the case that they were not invited to', async () => {
    const moderator = (await guest('moderator')).cookie
    const { cookie } = await guest('moderator', { kind: 'case', id: 'teal' })
    await post('/api/programmes/day/now', { kind: 'case', id: 'heron' }, moderator)
    const detail = await detailFor(cookie)
    expect(detail).toMatchObject({ onNow: { kind: 'elsewhere', since: at }, next: 'teal', role: null })
    expect(JSON.stringify(detail)).not.toContain('heron')
    expect(detail.cases.map(({ id }) => id)).toEqual(['teal'])
  })
})

const changes = [
  ['order', '/api/programmes/day/order', { cases: ['teal', 'heron', 'plover'] }],
  ['slot', '/api/programmes/day/cases/heron/slot', { plannedAt: null, breakBefore: 'Coffee' }],
  ['now', '/api/programmes/day/now', { kind: 'case', id: 'heron' }],
] as const

describe('who may lead a programme', () => {
  it.each(changes)('%s: its moderator and the owner alone', async (_, path, body) => {
    for (const role of ['team', 'panel', 'observer'] as const)
      expect(await codeOf(await post(path, body, (await guest(role)).cookie))).toEqual([403, 'not-permitted'])
    const ofCase = await guest('moderator', { kind: 'case', id: 'heron' })
    const elsewhere = await guest('moderator', { kind: 'programme', id: 'other' })
    for (const { cookie } of [ofCase, elsewhere])
      expect(await codeOf(await post(path, body, cookie))).toEqual([403, 'not-permitted'])
    expect(await codeOf(await post(path, body, ''))).toEqual([401, 'not-signed-in'])
    expect((await store.listProgrammes())[0]?.onNow.since).toBeNull()
    for (const scope of [toDay, { kind: 'installation' }] as const)
      expect((await post(path, body, (await guest('moderator', scope)).cookie)).status).toBe(200)
  })

  it.each(changes)('%s: not from a page of another site', async (_, path, body) => {
    const { cookie } = await guest('moderator')
    const headers = { cookie, origin: 'http://evil.example', 'content-type': 'application/json' }
    const response = await fetch(url + path, { method: 'POST', headers, body: JSON.stringify(body) })
    expect(await codeOf(response)).toEqual([403, 'cross-site'])
  })
})

describe('bad input', () => {
  it.each([
    ['order', { cases: ['heron', 'heron', 'teal'] }, 400],
    ['order', { cases: ['../x'] }, 400],
    ['order', { cases: 'heron' }, 400],
    ['order', { cases: ['heron', 'teal'] }, 409],
    ['order', { cases: ['heron', 'plover', 'foreign'] }, 409],
    ['cases/heron/slot', { plannedAt: 'at ten', breakBefore: '' }, 400],
    ['cases/heron/slot', { plannedAt: '2026-02-30T10:00:00Z', breakBefore: '' }, 400],
    ['cases/heron/slot', { plannedAt: null }, 400],
    ['cases/heron/slot', { plannedAt: null, breakBefore: 'x'.repeat(161) }, 400],
    ['cases/heron/slot', { plannedAt: null, breakBefore: 'two\nlines' }, 400],
    ['cases/heron/slot', { plannedAt: null, breakBefore: '', rank: 'a0' }, 400],
    ['cases/foreign/slot', { plannedAt: null, breakBefore: '' }, 404],
    ['now', { kind: 'case', id: 'foreign' }, 404],
    ['now', { kind: 'case' }, 400],
    ['now', { kind: 'elsewhere' }, 400],
    ['now', { kind: 'between', id: 'heron' }, 400],
  ])('is refused: %s %j', async (path, body, status) => {
    const { cookie } = await guest('moderator')
    const before = await detailFor(cookie)
    expect((await post(`/api/programmes/day/${path}`, body, cookie)).status).toBe(status)
    expect(await detailFor(cookie)).toEqual(before)
  })
})

describe('following a programme', () => {
  it('tells the state at once, then each change, to everybody as they may see it', async () => {
    const moderator = (await guest('moderator')).cookie
    const panel = new Listener((await guest('panel')).cookie)
    const ofTeal = new Listener((await guest('panel', { kind: 'case', id: 'teal' })).cookie)
    await Promise.all([panel, ofTeal].map((listener) => listener.until(({ onNow }) => onNow.kind === 'between')))
    await post('/api/programmes/day/now', { kind: 'case', id: 'heron' }, moderator)
    expect((await panel.until(({ onNow }) => onNow.kind === 'case')).onNow).toMatchObject({ id: 'heron' })
    await ofTeal.until(({ onNow }) => onNow.kind === 'elsewhere')
    await post('/api/programmes/day/order', { cases: ['teal', 'plover', 'heron'] }, moderator)
    await panel.until(({ cases }) => cases[0]?.id === 'teal')
    await post('/api/programmes/day/now', { kind: 'between' }, moderator)
    await panel.until(({ onNow }) => onNow.kind === 'between')
  })

  it('says that the link stands when there is nothing to tell', async () => {
    const listener = new Listener((await guest('observer')).cookie)
    while (listener.signs < 2) await listener.next()
    expect(listener.heard).toHaveLength(1)
  })

  it('tells a new name of a case without being asked', async () => {
    const listener = new Listener((await guest('observer')).cookie)
    await listener.until(() => true)
    const {
      plannedAt: _,
      breakBefore: __,
      rank: ___,
      id,
      programme: ____,
      createdAt: _____,
      ...projection
    } = (await store.findCase('heron')) ?? expect.fail('the case is there')
    await store.saveProjection(id, { ...projection, label: 'Grey heron' })
    await listener.until(({ cases }) => cases[0]?.label === 'Grey heron')
  })

  it('tells the same state to somebody who comes after the server was started anew', async () => {
    const { cookie } = await guest('moderator')
    await post('/api/programmes/day/now', { kind: 'case', id: 'plover' }, cookie)
    await stopServing()
    await store.close()
    store = await openSqliteStore(join(folder, 'store.db'))
    await serveAll()
    const told = await new Listener(cookie).until(() => true)
    expect(told.onNow).toEqual({ kind: 'case', id: 'plover', since: at })
  })

  it('is open to nobody without access, and says so by a close code', async () => {
    const elsewhere = await guest('moderator', { kind: 'programme', id: 'other' })
    for (const cookie of ['', elsewhere.cookie]) expect(await new Listener(cookie).closed).toBe(closeCode.notAllowed)
    expect(await new Listener((await guest('panel')).cookie, { programme: 'none' }).closed).toBe(closeCode.notAllowed)
  })

  it('is refused to a page of another site and to an address that names no programme', async () => {
    const { cookie } = await guest('panel')
    for (const where of [{ origin: 'http://evil.example' }, { programme: '..%2Fday' }]) {
      const listener = new Listener(cookie, where)
      expect(await listener.closed).toBe(1006)
      expect(listener.heard).toEqual([])
    }
  })

  it('ends when the link that somebody came in by is revoked, and when their time is over', async () => {
    const { cookie, invitation } = await guest('panel')
    const listener = new Listener(cookie)
    await listener.until(() => true)
    await people.revoke(invitation)
    expect(await listener.closed).toBe(closeCode.revoked)

    const wanted = { role: 'panel', scope: toDay, label: 'brief', expiresAt: null } as const
    const { token } = await people.invite({ ...wanted, accessUntil: '2026-03-02T08:10:00.000Z' })
    const joined = await post('/api/join', { token, name: 'Brief', affiliation: 'Clinic' }, '')
    const brief = new Listener(joined.headers.get('set-cookie')?.split(';')[0] ?? '')
    await brief.until(() => true)
    clock.now = new Date('2026-03-02T08:10:01Z')
    expect(await brief.closed).toBe(closeCode.revoked)
  })

  it('takes no messages: a word closes the socket, and a long one too', async () => {
    const { cookie } = await guest('moderator')
    for (const [message, code] of [
      ['{"kind":"case","id":"teal"}', closeCode.unexpected],
      ['x'.repeat(followLimits.frameBytes + 1), closeCode.tooLarge],
    ] as const) {
      const listener = new Listener(cookie)
      await listener.until(() => true)
      listener.socket.send(message)
      expect(await listener.closed).toBe(code)
    }
    expect((await detailFor(cookie)).onNow.kind).toBe('between')
  })
})
