import { IncomingMessage } from 'node:http'
import { Socket } from 'node:net'
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import type { Role } from '../../../lib/board/roles.ts'
import { createPeople, type People, type WantedInvitation } from '../../../server/people/people.ts'
import { sessionCookie } from '../../../server/people/session-cookie.ts'
import { createSigner } from '../../../server/people/signer.ts'
import { issueTicket } from '../../../server/people/tickets.ts'
import { openSqliteStore } from '../../../server/store/sqlite-store.ts'
import type { Store } from '../../../server/store/store.ts'
import { makeTemporaryFolder, removeFolder } from '../../support/temporary-folder.ts'

const signer = createSigner(new Uint8Array(32).fill(7))
const anna = { name: 'Anna', affiliation: 'Clinic' }
const minutesMs = 60_000
const daysMs = 24 * 3_600_000

let folder: string
let store: Store
let people: People
let now: Date

beforeEach(async () => {
  folder = await makeTemporaryFolder()
  store = await openSqliteStore(join(folder, 'store.db'))
  now = new Date('2026-03-02T08:00:00Z')
  people = createPeople({ store, signer, cookie: sessionCookie(false), now: () => now })
  await store.createProgramme({ id: 'day', label: 'Day', createdAt: now.toISOString() })
  for (const id of ['heron', 'plover'])
    await store.createCase({ id, programme: 'day', label: id, rank: 'a', createdAt: now.toISOString() })
})
afterEach(async () => {
  await store.close()
  await removeFolder(folder)
})

const later = (ms: number) => {
  now = new Date(now.getTime() + ms)
}
const invite = (role: Role, over: Partial<WantedInvitation> = {}) =>
  people.invite({ role, scope: { kind: 'case', id: 'heron' }, label: 'x', expiresAt: null, accessUntil: null, ...over })

function request({ cookie, url = '/' }: { cookie?: string; url?: string }): IncomingMessage {
  const made = new IncomingMessage(new Socket())
  made.url = url
  if (cookie !== undefined) made.headers.cookie = cookie.split(';')[0]
  return made
}

async function joinBy(token: string, who = anna, cookie?: string) {
  const caller = await people.authenticate(request(cookie === undefined ? {} : { cookie }))
  const outcome = await people.join(token, who, caller)
  if (outcome.state !== 'joined') throw new RangeError(outcome.state)
  return outcome
}

describe('joining', () => {
  it('gives a session whose role is that of the invitation, in that case only', async () => {
    const { token } = await invite('panel')
    const { cookie, participant } = await joinBy(token)
    const caller = await people.authenticate(request({ cookie: cookie ?? '' }))
    expect(caller?.participant).toEqual({ ...anna, id: participant.id })
    expect(await caller?.roleIn('heron')).toBe('panel')
    expect(await caller?.roleIn('plover')).toBeUndefined()
    expect(await caller?.roleIn('no-such-case')).toBeUndefined()
  })

  it('keeps neither token nor cookie in the store', async () => {
    const { token } = await invite('panel')
    const { cookie } = await joinBy(token)
    const kept = JSON.stringify(await store.listInvitations())
    expect(kept).not.toContain(token)
    const sessionToken = /=([^.]+)\./.exec(cookie ?? '')?.[1] ?? ''
    expect(await store.findSession(sessionToken)).toBeNull()
  })

  it('again with the same session and name is the same participant, with the newest role', async () => {
    const first = await joinBy((await invite('observer')).token)
    later(minutesMs)
    const second = await joinBy((await invite('team')).token, anna, first.cookie ?? '')
    expect(second.participant).toEqual(first.participant)
    expect(second.cookie).toBeNull()
    const caller = await people.authenticate(request({ cookie: first.cookie ?? '' }))
    expect(await caller?.roleIn('heron')).toBe('team')
  })

  it('on the same computer under another name is another participant', async () => {
    const first = await joinBy((await invite('team')).token)
    const second = await joinBy((await invite('panel')).token, { ...anna, name: 'Bo' }, first.cookie ?? '')
    expect(second.participant.id).not.toBe(first.participant.id)
    expect(second.cookie).not.toBeNull()
    expect(await people.authenticate(request({ cookie: first.cookie ?? '' }))).toBeUndefined()
  })

  it('is refused by an unknown, an expired and a revoked link, each by its own name', async () => {
    const expired = await invite('team', { expiresAt: now.toISOString() })
    const revoked = await invite('team')
    await people.revoke(revoked.invitation.id)
    expect(await people.join('no such token', anna, undefined)).toEqual({ state: 'unknown' })
    expect(await people.join(expired.token, anna, undefined)).toMatchObject({ state: 'expired' })
    expect(await people.join(revoked.token, anna, undefined)).toEqual({ state: 'revoked' })
  })
})

describe('authentication', () => {
  it('knows nobody without a cookie, with a forged one and with one of a left session', async () => {
    const { cookie } = await joinBy((await invite('team')).token)
    const value = (cookie ?? '').split(';')[0] ?? ''
    const caller = await people.authenticate(request({ cookie: value }))
    if (caller === undefined) throw new RangeError('the session should be known')
    await people.leave(caller)
    for (const tried of [undefined, value, `${value}x`, 'promontory=abc.def', 'promontory='])
      expect(await people.authenticate(request(tried === undefined ? {} : { cookie: tried }))).toBeUndefined()
  })

  it('knows a session for 200 days without a request, and no longer', async () => {
    const { cookie } = await joinBy((await invite('team')).token)
    later(199 * daysMs)
    expect(await people.authenticate(request({ cookie: cookie ?? '' }))).toBeDefined()
    later(199 * daysMs)
    expect(await people.authenticate(request({ cookie: cookie ?? '' }))).toBeDefined()
    later(201 * daysMs)
    expect(await people.authenticate(request({ cookie: cookie ?? '' }))).toBeUndefined()
  })

  it('knows no session for longer than 400 days, however often it is used', async () => {
    const { cookie } = await joinBy((await invite('team')).token)
    later(199 * daysMs)
    await people.authenticate(request({ cookie: cookie ?? '' }))
    later(199 * daysMs)
    await people.authenticate(request({ cookie: cookie ?? '' }))
    later(3 * daysMs)
    expect(await people.authenticate(request({ cookie: cookie ?? '' }))).toBeUndefined()
  })

  it('ends access at the time that the invitation names, in a session that stays', async () => {
    const { token } = await invite('team', { accessUntil: new Date(now.getTime() + minutesMs).toISOString() })
    const { cookie } = await joinBy(token)
    const caller = await people.authenticate(request({ cookie: cookie ?? '' }))
    expect(await caller?.roleIn('heron')).toBe('team')
    later(minutesMs)
    expect(await caller?.roleIn('heron')).toBeUndefined()
  })

  it('makes the owner moderator in every case', async () => {
    const { cookie } = await joinBy((await invite('moderator', { scope: { kind: 'installation' } })).token)
    const caller = await people.authenticate(request({ cookie: cookie ?? '' }))
    expect(caller?.isOwner).toBe(true)
    expect(await caller?.roleIn('plover')).toBe('moderator')
    expect(await caller?.roleIn('no-such-case')).toBeUndefined()
  })
})

describe('revoking', () => {
  it('ends the grants made by the invitation at once and tells who is affected', async () => {
    const { token, invitation } = await invite('team')
    const { cookie, participant } = await joinBy(token)
    const caller = await people.authenticate(request({ cookie: cookie ?? '' }))
    const told: string[] = []
    const stop = people.onRevoked((id) => told.push(id))
    expect(await people.revoke(invitation.id)).toBe(true)
    expect(told).toEqual([participant.id])
    expect(await caller?.roleIn('heron')).toBeUndefined()
    stop()
    await people.revoke(invitation.id)
    expect(told).toHaveLength(1)
    expect(await people.revoke('unknown')).toBe(false)
  })
})

describe('a ticket', () => {
  const withTicket = (ticket: string) =>
    people.authenticate(request({ url: `/sync/record.heron?ticket=${encodeURIComponent(ticket)}` }))
  const issue = (signedBy = signer) =>
    issueTicket(signedBy, { participant: 'program', caseId: 'heron', role: 'panel' }, now)

  beforeEach(() =>
    store.createParticipant({ id: 'program', name: 'Program', affiliation: 'x', createdAt: now.toISOString() }),
  )

  it('stands for one role in one case', async () => {
    const caller = await withTicket(issue())
    expect(caller?.participant.name).toBe('Program')
    expect(caller?.isOwner).toBe(false)
    expect(await caller?.roleIn('heron')).toBe('panel')
    expect(await caller?.roleIn('plover')).toBeUndefined()
  })

  it('is over after ten minutes', async () => {
    const ticket = issue()
    later(10 * minutesMs - 1)
    expect(await withTicket(ticket)).toBeDefined()
    later(1)
    expect(await withTicket(ticket)).toBeUndefined()
  })

  it('is refused when forged, empty, or made for another purpose', async () => {
    const forged = issue(createSigner(new Uint8Array(32)))
    const session = signer.sign('session', Buffer.from('{}').toString('base64url'))
    for (const ticket of [forged, session, '', 'x', `${issue()}x`]) expect(await withTicket(ticket)).toBeUndefined()
  })
})
