import { createServer, type Server } from 'node:http'
import type { AddressInfo } from 'node:net'
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import type { Role } from '../../../lib/board/roles.ts'
import {
  ApiError,
  CaseDetail,
  CaseList,
  CaseSummary,
  CreatedInvitation,
  InvitationList,
  InvitationPreview,
  JoinAnswer,
  Me,
  type NewInvitation,
  PeopleOfCase,
  Programme,
  ProgrammeDetail,
  ProgrammeList,
} from '../../../lib/interchange/api.ts'
import { decodeMomentState } from '../../../lib/interchange/moment-state.ts'
import { SessionTimeline } from '../../../lib/interchange/session-timeline.ts'
import { createExchange } from '../../../server/exchange/exchange.ts'
import { createApi, matchPath } from '../../../server/http/api.ts'
import { originsOf } from '../../../server/http/origin.ts'
import { bodyLimitBytes } from '../../../server/http/read-body.ts'
import { createThrottle, missesAllowed } from '../../../server/http/throttle.ts'
import { createLog } from '../../../server/log.ts'
import { createMetrics } from '../../../server/metrics/metrics.ts'
import { createPeople, type People } from '../../../server/people/people.ts'
import { sessionCookie } from '../../../server/people/session-cookie.ts'
import { createSigner } from '../../../server/people/signer.ts'
import { createPictures } from '../../../server/pictures/pictures.ts'
import { Hub } from '../../../server/room/hub.ts'
import { Series } from '../../../server/series/series.ts'
import { openSqliteStore } from '../../../server/store/sqlite-store.ts'
import type { Store, UpdateEntry } from '../../../server/store/store.ts'
import { createUnnamed } from '../../../server/unnamed/unnamed.ts'
import { createVotes } from '../../../server/votes/votes.ts'
import { createWithdrawals } from '../../../server/withdrawals/withdrawals.ts'
import { makeTemporaryFolder, removeFolder } from '../../support/temporary-folder.ts'

let folder: string
let store: Store
let people: People
let server: Server
let hub: Hub
let url: string
let logged: string
let ids = 0
/** Programmes whose followers were told. */
let changed: string[]
let closing = false
const clock = { now: new Date('2026-03-02T08:00:00Z') }

beforeEach(async () => {
  folder = await makeTemporaryFolder()
  store = await openSqliteStore(join(folder, 'store.db'))
  clock.now = new Date('2026-03-02T08:00:00Z')
  logged = ''
  const now = () => clock.now
  const signer = createSigner(new Uint8Array(32).fill(7))
  people = createPeople({ store, signer, cookie: sessionCookie(false), now })
  const log = createLog((line) => {
    logged += line
  }, now)
  const throttle = createThrottle(() => now().getTime())
  hub = new Hub(store, () => undefined)
  const votes = createVotes({ store, hub, now })
  const withdrawals = createWithdrawals({ store, hub, now, newId: () => `id-${++ids}` })
  const unnamed = createUnnamed({ store, hub, now })
  changed = []
  const programmeChanged = (programme: string) => void changed.push(programme)
  const api = createApi({
    store,
    people,
    votes,
    withdrawals,
    hasConsent: async () => true,
    unnamed,
    pictures: createPictures({ store, hub, now, newId: () => `id-${++ids}` }),
    exchange: createExchange({ store, hub, now, newId: () => `id-${++ids}` }),
    series: new Series(store, log),
    origins: originsOf(undefined),
    throttle,
    programmeChanged,
    now,
    log,
    metrics: createMetrics(),
    metricsToken: undefined,
    isClosing: () => closing,
    canStore: () => true,
  })
  server = createServer((request, response) => void api(request, response))
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve))
  url = `http://127.0.0.1:${(server.address() as AddressInfo).port}`
})
afterEach(async () => {
  server.closeAllConnections()
  await new Promise((resolve) => server.close(resolve))
  await hub.close()
  await store.close()
  await removeFolder(folder)
})

interface Sent {
  readonly cookie?: string
  readonly origin?: string | undefined
  readonly type?: string
  readonly raw?: string
}

const get = (path: string, cookie = '') => fetch(url + path, { headers: { cookie } })
function post(path: string, body: unknown, { cookie = '', origin = url, type = 'application/json', raw }: Sent = {}) {
  return fetch(url + path, {
    method: 'POST',
    headers: { cookie, origin, 'content-type': type },
    body: raw ?? JSON.stringify(body),
  })
}
const code = async (response: Response) => ApiError.parse(await response.json()).error.code
const cookieOf = (response: Response) => response.headers.get('set-cookie')?.split(';')[0] ?? ''

const join1 = (token: string, name = 'Anna', cookie = '') =>
  post('/api/join', { token, name, affiliation: 'Clinic' }, { cookie })
async function owner(): Promise<string> {
  const scope = { kind: 'installation' } as const
  const wanted = { role: 'moderator', scope, label: 'owner', expiresAt: null, accessUntil: null } as const
  return cookieOf(await join1((await people.invite(wanted)).token, 'Owner'))
}
async function programmeWithCase(cookie: string, label = 'Day') {
  const programme = Programme.parse(await (await post('/api/programmes', { label }, { cookie })).json())
  const made = await post(`/api/programmes/${programme.id}/cases`, { label: `Case of ${label}` }, { cookie })
  return { programme, made: CaseSummary.parse(await made.json()) }
}
async function invite(cookie: string, over: Partial<NewInvitation> & Pick<NewInvitation, 'scope'>) {
  const response = await post('/api/invitations', { role: 'panel', label: 'for tests', ...over }, { cookie })
  const { path, invitation } = CreatedInvitation.parse(await response.json())
  return { token: path.replace('/join/', ''), invitation }
}

describe('paths', () => {
  it('match segment by segment, and never an empty name', () => {
    expect(matchPath('/api/cases/:id/people', '/api/cases/heron/people')).toEqual({ id: 'heron' })
    expect(matchPath('/api/cases/:id', '/api/cases/')).toBeUndefined()
    expect(matchPath('/api/cases/:id', '/api/cases/heron/people')).toBeUndefined()
    expect(matchPath('/api/me', '/api/you')).toBeUndefined()
  })

  it('of nothing are answered as such, and known ones with another method by what they take', async () => {
    expect(await code(await get('/api/nothing'))).toBe('not-found')
    const response = await fetch(`${url}/api/me`, { method: 'DELETE' })
    expect([response.status, response.headers.get('allow')]).toEqual([405, 'GET'])
  })
})

describe('a request that changes something', () => {
  it('is refused from another site before anything is read', async () => {
    const { token } = await invite(await owner(), { scope: { kind: 'programme', id: await aProgramme() } })
    const response = await post('/api/join', { token, name: 'A', affiliation: 'B' }, { origin: 'http://evil.example' })
    expect([response.status, await code(response)]).toEqual([403, 'cross-site'])
    expect((await store.listInvitations()).find(({ label }) => label === 'for tests')?.uses).toBe(0)
  })

  const aProgramme = async () => {
    await store.createProgramme({ id: 'day', label: 'Day', createdAt: clock.now.toISOString() })
    return 'day'
  }

  it.each([
    ['too large', { raw: JSON.stringify({ token: 'x'.repeat(bodyLimitBytes) }) }, 413, 'too-large'],
    ['a form', { type: 'application/x-www-form-urlencoded', raw: 'token=x' }, 415, 'not-json'],
    ['broken JSON', { raw: '{"token":' }, 400, 'bad-request'],
    ['another form of JSON', { raw: '[]' }, 400, 'bad-request'],
    ['nothing', { raw: '' }, 400, 'bad-request'],
  ])('is refused when its body is %s', async (_, sent, status, refusal) => {
    const response = await post('/api/join', undefined, sent)
    expect([response.status, await code(response)]).toEqual([status, refusal])
  })

  it('is refused when a body without a stated length is too large', async () => {
    const chunk = new TextEncoder().encode('x'.repeat(1024))
    const body = new ReadableStream({
      start(controller) {
        for (let sent = 0; sent <= bodyLimitBytes; sent += chunk.length) controller.enqueue(chunk)
        controller.close()
      },
    })
    const headers = { origin: url, 'content-type': 'application/json' }
    const response = await fetch(`${url}/api/join`, { method: 'POST', headers, body, duplex: 'half' } as RequestInit)
    expect(await code(response)).toBe('too-large')
  })

  it('names the fields that are wrong, and takes no field that it does not know', async () => {
    const { token } = await invite(await owner(), { scope: { kind: 'programme', id: await aProgramme() } })
    const wrong = [
      [{ token, name: '  ', affiliation: 'Clinic' }, /name/],
      [{ token, name: 'A'.repeat(81), affiliation: 'Clinic' }, /name/],
      [{ token, name: 'A\nB', affiliation: 'Clinic' }, /name: .*one line/],
      [{ token, name: 'A', affiliation: 'Clinic', role: 'moderator' }, /role/],
    ] as const
    for (const [body, message] of wrong)
      expect(ApiError.parse(await (await post('/api/join', body)).json()).error.message).toMatch(message)
  })
})

describe('joining', () => {
  it('shows what a link is for before anybody joins, then lets them in with that role', async () => {
    const cookie = await owner()
    const { made } = await programmeWithCase(cookie)
    const { token } = await invite(cookie, { scope: { kind: 'case', id: made.id }, role: 'team' })
    const preview = InvitationPreview.parse(await (await get(`/api/invitations/${token}/preview`)).json())
    expect(preview).toMatchObject({ state: 'open', role: 'team', label: 'Case of Day' })
    const response = await join1(token)
    expect(JoinAnswer.parse(await response.json())).toMatchObject({ role: 'team', destination: `/case/${made.id}` })
    expect(response.headers.get('set-cookie')).toMatch(/HttpOnly; SameSite=Strict/)
    const me = Me.parse(await (await get('/api/me', cookieOf(response))).json())
    expect(me).toMatchObject({ participant: { name: 'Anna', affiliation: 'Clinic' }, isOwner: false })
  })

  it('keeps markup in a name as the text that it is', async () => {
    const cookie = await owner()
    const { programme } = await programmeWithCase(cookie)
    const { token } = await invite(cookie, { scope: { kind: 'programme', id: programme.id } })
    const name = '<img src=x onerror=alert(1)>'
    const response = await join1(token, name)
    expect(response.headers.get('content-type')).toBe('application/json; charset=utf-8')
    expect(JoinAnswer.parse(await response.json()).participant.name).toBe(name)
  })

  it('tells an unknown, an expired and a revoked link apart, and nothing else about them', async () => {
    const cookie = await owner()
    const { made } = await programmeWithCase(cookie)
    const scope = { kind: 'case', id: made.id } as const
    const expired = await invite(cookie, { scope, expiresAt: '2026-03-02T08:00:00Z' })
    const revoked = await invite(cookie, { scope })
    await post(`/api/invitations/${revoked.invitation.id}/revoke`, {}, { cookie })
    const preview = async (token: string) => await (await get(`/api/invitations/${token}/preview`)).json()
    expect(await preview('guess')).toEqual({ state: 'unknown' })
    expect(await preview(expired.token)).toEqual({ state: 'expired', expiredAt: '2026-03-02T08:00:00Z' })
    expect(await preview(revoked.token)).toEqual({ state: 'revoked' })
    const codes = [await join1('guess'), await join1(expired.token), await join1(revoked.token)].map(code)
    expect(await Promise.all(codes)).toEqual(['link-unknown', 'link-expired', 'link-revoked'])
  })

  it('is slowed down after many unknown links, for known links too, until the window is over', async () => {
    const cookie = await owner()
    const { programme } = await programmeWithCase(cookie)
    const { token } = await invite(cookie, { scope: { kind: 'programme', id: programme.id } })
    for (let miss = 0; miss < missesAllowed; miss++) await join1(`guess ${miss}`)
    expect(await code(await join1(token))).toBe('too-many-attempts')
    expect((await get(`/api/invitations/${token}/preview`)).status).toBe(429)
    clock.now = new Date(clock.now.getTime() + 10 * 60_000)
    expect((await join1(token)).status).toBe(200)
  })

  it('does not slow down a meeting room of two hundred people behind one address', async () => {
    const cookie = await owner()
    const { programme } = await programmeWithCase(cookie)
    const { token } = await invite(cookie, { scope: { kind: 'programme', id: programme.id }, role: 'observer' })
    const all = await Promise.all(Array.from({ length: 200 }, (_, index) => join1(token, `Observer ${index}`)))
    expect(new Set(all.map(({ status }) => status))).toEqual(new Set([200]))
  })

  it('is undone by leaving', async () => {
    const cookie = await owner()
    const response = await post('/api/leave', {}, { cookie })
    expect(response.headers.get('set-cookie')).toMatch(/^promontory=; Max-Age=0/)
    expect(Me.parse(await (await get('/api/me', cookie)).json()).participant).toBeNull()
  })
})

describe('what people may see', () => {
  it('is nothing without having joined', async () => {
    for (const path of ['/api/programmes', '/api/cases', '/api/cases/x', '/api/cases/x/people', '/api/invitations'])
      expect(await code(await get(path))).toBe('not-signed-in')
  })

  it('is the programme and its cases in order by a programme’s link', async () => {
    const cookie = await owner()
    const { programme, made } = await programmeWithCase(cookie)
    const second = await post(`/api/programmes/${programme.id}/cases`, { label: 'Second' }, { cookie })
    const { id } = CaseSummary.parse(await second.json())
    await programmeWithCase(cookie, 'Other day')
    const { token } = await invite(cookie, { scope: { kind: 'programme', id: programme.id }, role: 'observer' })
    const guest = cookieOf(await join1(token))
    expect(ProgrammeList.parse(await (await get('/api/programmes', guest)).json()).programmes).toEqual([
      { ...programme, onNow: { kind: 'between', since: null } },
    ])
    const detail = ProgrammeDetail.parse(await (await get(`/api/programmes/${programme.id}`, guest)).json())
    expect(detail.cases.map((each) => [each.id, each.role])).toEqual([
      [made.id, 'observer'],
      [id, 'observer'],
    ])
  })

  it('is one case alone by a case’s link, and the same refusal for another case and for none', async () => {
    const cookie = await owner()
    const { made } = await programmeWithCase(cookie)
    const other = await programmeWithCase(cookie, 'Other day')
    const { token } = await invite(cookie, { scope: { kind: 'case', id: made.id } })
    const guest = cookieOf(await join1(token))
    expect(CaseList.parse(await (await get('/api/cases', guest)).json()).cases.map(({ id }) => id)).toEqual([made.id])
    const detail = CaseDetail.parse(await (await get(`/api/cases/${made.id}`, guest)).json())
    expect(detail).toMatchObject({
      case: { role: 'panel' },
      documents: { record: `record.${made.id}`, floor: `floor.${made.id}` },
    })
    const answers = [await get(`/api/cases/${other.made.id}`, guest), await get('/api/cases/none', guest)]
    const [foreign, missing] = await Promise.all(answers.map(async (each) => [each.status, await each.json()]))
    expect(foreign).toEqual(missing)
    expect(foreign?.[0]).toBe(403)
    expect((await get(`/api/programmes/${other.programme.id}`, guest)).status).toBe(403)
  })

  it('are the people of a case: observers to those who run it, authors to everybody, also when their access ended', async () => {
    const cookie = await owner()
    const { made } = await programmeWithCase(cookie)
    const scope = { kind: 'case', id: made.id } as const
    const guests = new Map<string, { cookie: string; id: string; invitation: string }>()
    for (const role of ['team', 'panel', 'observer'] as const) {
      const { token, invitation } = await invite(cookie, { scope, role })
      const response = await join1(token, role)
      const { participant } = JoinAnswer.parse(await response.json())
      guests.set(role, { cookie: cookieOf(response), id: participant.id, invitation: invitation.id })
    }
    const seenBy = async (who: string) => {
      const answer = await get(`/api/cases/${made.id}/people`, guests.get(who)?.cookie)
      return PeopleOfCase.parse(await answer.json()).people.map(({ name, role }) => `${name}: ${role}`)
    }
    expect((await seenBy('team')).sort()).toEqual([
      'Owner: moderator',
      'observer: observer',
      'panel: panel',
      'team: team',
    ])
    expect((await seenBy('panel')).sort()).toEqual(['Owner: moderator', 'panel: panel', 'team: team'])
    const at = clock.now.toISOString()
    const panel = guests.get('panel')
    const written = {
      document: `floor.${made.id}`,
      update: new Uint8Array([0]),
      role: 'panel',
      at,
      clients: [5],
    } as const
    await store.append([{ ...written, author: panel?.id ?? '' }])
    await post(`/api/invitations/${panel?.invitation}/revoke`, {}, { cookie })
    expect(await seenBy('observer')).toContain('panel: null')
    expect((await get(`/api/cases/${made.id}/people`, panel?.cookie)).status).toBe(403)
  })
})

describe('a case as it was', () => {
  const moment = (caseId: string, at: string, cookie = '') => get(`/api/cases/${caseId}/moments/${at}`, cookie)

  it('is opened at any moment, with a time line, by those whose role has rewind', async () => {
    const cookie = await owner()
    const { made } = await programmeWithCase(cookie)
    const entry = (over: Partial<UpdateEntry>): UpdateEntry => ({
      document: `record.${made.id}`,
      update: Uint8Array.of(1),
      author: 'anna',
      role: 'team',
      at: '2026-03-02T08:00:00.000Z',
      clients: [],
      ...over,
    })
    const called = { kind: 'questions', record: 'q', state: 'called' } as const
    const done = { kind: 'steps', record: 's', state: 'done' } as const
    await store.append([
      entry({}),
      entry({ update: Uint8Array.of(2), at: '2026-03-02T08:20:00.000Z', marks: [done] }),
      entry({
        document: `floor.${made.id}`,
        update: Uint8Array.of(3),
        at: '2026-03-02T08:10:00.000Z',
        marks: [called],
      }),
    ])
    const timeline = SessionTimeline.parse(await (await get(`/api/cases/${made.id}/timeline`, cookie)).json())
    expect(timeline).toEqual({
      firstAt: '2026-03-02T08:00:00.000Z',
      lastAt: '2026-03-02T08:20:00.000Z',
      marks: [
        { at: '2026-03-02T08:10:00.000Z', mark: called },
        { at: '2026-03-02T08:20:00.000Z', mark: done },
      ],
    })
    const answer = await moment(made.id, '2026-03-02T08:15:00Z', cookie)
    expect(answer.headers.get('content-type')).toBe('application/octet-stream')
    expect(decodeMomentState(new Uint8Array(await answer.arrayBuffer()))).toEqual({
      record: [Uint8Array.of(1)],
      floor: [Uint8Array.of(3)],
    })
    expect(await code(await moment(made.id, 'yesterday', cookie))).toBe('bad-request')
  })

  it('is kept from observers, from people of another case and from strangers', async () => {
    const cookie = await owner()
    const { made } = await programmeWithCase(cookie)
    const other = await programmeWithCase(cookie, 'Other day')
    const guest = async (role: Role, caseId: string) =>
      cookieOf(await join1((await invite(cookie, { scope: { kind: 'case', id: caseId }, role })).token))
    const statuses = async (who: string) => [
      (await get(`/api/cases/${made.id}/timeline`, who)).status,
      (await moment(made.id, '2026-03-02T08:00:00.000Z', who)).status,
    ]
    expect(await statuses(await guest('panel', made.id))).toEqual([200, 200])
    expect(await statuses(await guest('observer', made.id))).toEqual([403, 403])
    expect(await statuses(await guest('moderator', other.made.id))).toEqual([403, 403])
    expect(await statuses('')).toEqual([401, 401])
  })
})

describe('what the owner alone may do', () => {
  it('is refused to a moderator of a programme', async () => {
    const cookie = await owner()
    const { programme, made } = await programmeWithCase(cookie)
    const { token } = await invite(cookie, { scope: { kind: 'programme', id: programme.id }, role: 'moderator' })
    const moderator = { cookie: cookieOf(await join1(token)) }
    const tries = [
      post('/api/programmes', { label: 'Mine' }, moderator),
      post(`/api/programmes/${programme.id}/cases`, { label: 'Mine' }, moderator),
      post('/api/invitations', { role: 'team', scope: { kind: 'case', id: made.id }, label: 'x' }, moderator),
      post('/api/invitations/any/revoke', {}, moderator),
      get('/api/invitations', moderator.cookie),
    ]
    for (const response of await Promise.all(tries)) expect(await code(response)).toBe('not-permitted')
    expect(await store.listProgrammes()).toHaveLength(1)
  })

  it('is inviting, into what exists, never into everything', async () => {
    const cookie = await owner()
    const into = (scope: unknown) => post('/api/invitations', { role: 'team', label: 'x', scope }, { cookie })
    expect(await code(await into({ kind: 'case', id: 'none' }))).toBe('not-found')
    expect(await code(await into({ kind: 'programme', id: 'none' }))).toBe('not-found')
    expect(await code(await into({ kind: 'installation' }))).toBe('bad-request')
  })

  it('is the list of invitations, without their tokens or hashes', async () => {
    const cookie = await owner()
    const { programme } = await programmeWithCase(cookie)
    const { token } = await invite(cookie, { scope: { kind: 'programme', id: programme.id } })
    const text = await (await get('/api/invitations', cookie)).text()
    expect(InvitationList.parse(JSON.parse(text)).invitations).toHaveLength(2)
    expect(text).not.toMatch(/hash/i)
    expect(text).not.toContain(token)
  })
})

describe('an outage of the store', () => {
  it('is answered as such, logged with its reason, and told to whoever watches', async () => {
    await store.close()
    const response = await get('/readyz')
    expect([response.status, await code(response)]).toEqual([503, 'unavailable'])
    // The process itself is well: whoever ended it for this would only make it worse.
    expect((await get('/healthz')).status).toBe(200)
    expect(JSON.parse(logged)).toMatchObject({ level: 'error', event: 'api-failed' })
    store = await openSqliteStore(join(folder, 'store.db'))
  })
})

describe('the log', () => {
  const events = () =>
    logged
      .split('\n')
      .filter((line) => line !== '')
      .map((line) => JSON.parse(line))

  it('tells who joined by which link, who left, and who tried what was not theirs, without tokens and names', async () => {
    const cookie = await owner()
    const { programme } = await programmeWithCase(cookie)
    const { token } = await invite(cookie, { scope: { kind: 'programme', id: programme.id }, role: 'panel' })
    const panel = cookieOf(await join1(token, 'Somebody'))
    logged = ''
    await join1('a guess')
    await post('/api/programmes', { label: 'Mine' }, { cookie: panel })
    await post('/api/programmes', { label: 'Theirs' }, { cookie: panel, origin: 'https://evil.example' })
    await post('/api/leave', {}, { cookie: panel })
    expect(events()).toMatchObject([
      { event: 'link-unknown' },
      { event: 'request-refused', code: 'not-permitted', route: '/api/programmes', participant: expect.any(String) },
      { event: 'request-refused', code: 'cross-site', route: '/api/programmes' },
      { event: 'left' },
    ])
    await join1(token, 'Somebody')
    expect(events().at(-1)).toMatchObject({ event: 'joined', role: 'panel', invitation: expect.any(String) })
    expect(logged).not.toContain(token)
    expect(logged).not.toContain('a guess')
    expect(logged).not.toContain('Somebody')
  })

  it('does not tell who asked without a name', async () => {
    const cookie = await owner()
    const { programme } = await programmeWithCase(cookie)
    const { token } = await invite(cookie, { scope: { kind: 'programme', id: programme.id }, role: 'observer' })
    const observer = cookieOf(await join1(token, 'Somebody'))
    logged = ''
    await post('/api/cases/none/unnamed', { text: 'Which prosthesis?' }, { cookie: observer })
    expect(events()).toMatchObject([{ event: 'request-refused', route: '/api/cases/:id/unnamed' }])
    expect(logged).not.toContain('participant')
  })
})

describe('watching the server', () => {
  it('is told that it takes people in, until it is about to end', async () => {
    expect((await get('/readyz')).status).toBe(200)
    closing = true
    const response = await get('/readyz')
    closing = false
    expect([response.status, await code(response)]).toEqual([503, 'unavailable'])
  })

  it('counts for this computer, and not for what came through a proxy', async () => {
    const response = await get('/metrics')
    expect(response.headers.get('content-type')).toMatch(/^text\/plain; version=0\.0\.4/)
    const text = await response.text()
    for (const name of ['promontory_edits_total', 'promontory_append_seconds_bucket', 'process_cpu_seconds_total'])
      expect(text).toContain(`\n${name}`)
    const forwarded = await fetch(`${url}/metrics`, { headers: { 'x-forwarded-for': '192.0.2.7' } })
    expect([forwarded.status, await code(forwarded)]).toEqual([403, 'not-permitted'])
  })
})
