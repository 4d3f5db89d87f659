import { createHash } from 'node:crypto'
import { readFile } from 'node:fs/promises'
import { request } from 'node:http'
import { deflateSync } from 'node:zlib'
import { afterAll, beforeAll, beforeEach, describe, expect, it, vi } from 'vitest'
import * as Y from 'yjs'
import { documentName } from '../../lib/board/documents.ts'
import { changeRecord, putRecord, removeRecord } from '../../lib/board/edits/writing.ts'
import { pictureLimits } from '../../lib/board/records/picture.ts'
import { ApiError, ErasureReceipt, WithdrawalList } from '../../lib/interchange/api.ts'
import { AddedPicture, pictureHeaders, sentPictureBytes } from '../../lib/interchange/pictures/new-picture.ts'
import { Proposal } from '../../server/guard/proposal.ts'
import {
  bytesOf,
  htmlPage,
  jpegMetadata,
  jpegOf,
  jpegSegment,
  pngChunk,
  pngMetadata,
  pngOf,
  secret,
} from '../fixtures/pictures.ts'
import { type ApiInstallation, startApiInstallation } from '../support/api-installation.ts'
import { sampleNow, sampleRecord } from '../support/sample-records.ts'

/** G18: a photograph is cleaned, stored and written by the server alone, and gone when it is withdrawn or erased. */
const clock = { now: new Date('2026-05-04T10:00:00.000Z') }
const now = () => clock.now
const bySeed = { participant: 'seed', role: 'moderator' } as const

let board: ApiInstallation
let owner: string, moderator: string, team: string, panel: string, observer: string, stranger: string
let caseId: string
let made = 0

beforeAll(async () => {
  board = await startApiInstallation(now)
  await board.store.createProgramme({ id: 'day', label: 'Day', createdAt: now().toISOString() })
  await board.store.createProgramme({ id: 'other', label: 'Other', createdAt: now().toISOString() })
  const day = { kind: 'programme', id: 'day' } as const
  owner = await board.join('moderator', { kind: 'installation' }, 'Owner')
  ;[moderator, team, panel, observer] = (await Promise.all(
    (['moderator', 'team', 'panel', 'observer'] as const).map((role) => board.join(role, day)),
  )) as [string, string, string, string]
  stranger = await board.join('moderator', { kind: 'programme', id: 'other' }, 'Stranger')
})
afterAll(() => board.stop())
beforeEach(async () => {
  // Later than any pace that the test before has used up.
  clock.now = new Date(clock.now.getTime() + 3_600_000)
  caseId = `case-${++made}`
  await board.store.createCase({
    id: caseId,
    programme: 'day',
    label: `Label ${caseId}`,
    rank: `a${made}`,
    createdAt: now().toISOString(),
  })
})

const roomOf = () => board.hub.visit(documentName('record', caseId))
const write = async (edit: (doc: Y.Doc) => void) => (await roomOf()).write(edit, bySeed, now().getTime())
const pictures = async () => [...(await roomOf()).tables.values('pictures')]

const send = (bytes: Uint8Array, cookie = team, headers: Record<string, string> = {}) =>
  fetch(`${board.url}/api/cases/${caseId}/pictures`, {
    method: 'POST',
    headers: { cookie, origin: board.url, 'content-type': 'image/png', ...headers },
    body: new Uint8Array(bytes),
  })
const sent = async (bytes: Uint8Array, cookie = team, headers: Record<string, string> = {}) => {
  const response = await send(bytes, cookie, headers)
  expect([response.status, response.status === 201 ? '' : await response.clone().text()]).toEqual([201, ''])
  return AddedPicture.parse(await response.json()).picture
}
const codeOf = async (response: Response) => ApiError.parse(await response.json()).error.code
const open = (id: string, cookie = observer) => board.get(`/api/cases/${caseId}/pictures/${id}`, cookie)
/** As a browser that has a copy asks whether it is still there. */
const askAgain = (id: string, tag: string) =>
  fetch(`${board.url}/api/cases/${caseId}/pictures/${id}`, { headers: { cookie: panel, 'if-none-match': tag } })
const bytesIn = async (response: Response) => new Uint8Array(await response.arrayBuffer())

/** A picture that compresses badly, so that its bytes can be looked for in a file. */
const noise = (seed: number) => {
  const row = (at: number) => (at % 61 === 0 ? 0 : (Math.imul(at + seed * 7919, 2654435761) >>> 24) & 255)
  return pngOf({ width: 20, height: 20, packed: deflateSync(Uint8Array.from({ length: 20 * 61 }, (_, at) => row(at))) })
}
/** Whether a run of the bytes stands anywhere in the database or its write-ahead log. */
const isInFile = async (bytes: Uint8Array) => {
  const found = await Promise.all(
    [board.file, `${board.file}-wal`].map((path) => readFile(path).catch(() => Buffer.of())),
  )
  return found.some((file) => file.includes(Buffer.from(bytes.subarray(200, 400))))
}

describe('[G18] a photograph', () => {
  it('comes out without metadata, as what it is, for everybody who may open the case', async () => {
    await write((doc) => putRecord(doc, 'steps', sampleRecord('steps', 'step-1', 'seed') as never))
    const words = {
      [pictureHeaders.caption]: encodeURIComponent('Niche – « ouverte »'),
      [pictureHeaders.step]: 'step-1',
    }
    const png = await sent(pngOf({ before: pngMetadata }), team, words)
    const jpeg = await sent(jpegOf({ before: jpegMetadata }), moderator)
    expect(png).toMatchObject({
      caption: 'Niche – « ouverte »',
      step: 'step-1',
      mediaType: 'image/png',
      width: 6,
      height: 4,
    })
    expect(await pictures()).toEqual(expect.arrayContaining([png, jpeg]))
    for (const { id, mediaType, bytes, sha256 } of [png, jpeg]) {
      for (const cookie of [moderator, team, panel, observer]) expect((await open(id, cookie)).status).toBe(200)
      const response = await open(id)
      const body = await bytesIn(response)
      expect(createHash('sha256').update(body).digest('hex')).toBe(sha256)
      expect(body.length).toBe(bytes)
      expect(Buffer.from(body).toString('latin1')).not.toContain(secret)
      expect(Object.fromEntries(response.headers)).toMatchObject({
        'content-type': mediaType,
        'x-content-type-options': 'nosniff',
        'content-disposition': 'inline',
        'content-security-policy': expect.stringContaining('sandbox'),
        'cache-control': 'private, no-cache',
      })
      const again = await askAgain(id, response.headers.get('etag') ?? '')
      expect([again.status, (await bytesIn(again)).length]).toEqual([304, 0])
    }
  })

  it('is sent by moderators and team of the case alone, and seen by nobody from elsewhere', async () => {
    for (const cookie of [panel, observer, stranger])
      expect(await codeOf(await send(pngOf(), cookie))).toBe('not-permitted')
    expect(await codeOf(await send(pngOf(), ''))).toBe('not-signed-in')
    expect(await pictures()).toEqual([])
    const { id } = await sent(pngOf())
    expect(await codeOf(await open(id, stranger))).toBe('not-permitted')
    expect(await codeOf(await open(id, ''))).toBe('not-signed-in')
    expect(await codeOf(await open('none'))).toBe('not-found')
  })

  it('is found under no other case, and under no path that leads elsewhere', async () => {
    const { id } = await sent(pngOf())
    await board.store.createCase({
      id: `${caseId}-b`,
      programme: 'day',
      label: 'b',
      rank: 'z',
      createdAt: now().toISOString(),
    })
    expect((await board.get(`/api/cases/${caseId}-b/pictures/${id}`, observer)).status).toBe(404)
    for (const path of [`..%2f${id}`, `${id}%00`, `${id}.png`, "' OR 1=1 --", '%2e%2e'])
      expect([path, (await open(encodeURI(path))).ok]).toEqual([path, false])
  })

  it('is taken from pages of this board alone', async () => {
    for (const headers of [{ origin: 'https://elsewhere.example' }, { 'sec-fetch-site': 'cross-site' }])
      expect(await codeOf(await send(pngOf(), team, headers as Record<string, string>))).toBe('cross-site')
    expect(await pictures()).toEqual([])
  })

  it.each([
    ['a page', htmlPage, 'picture-unknown-type'],
    ['nothing', new Uint8Array(), 'picture-unknown-type'],
    ['half a picture', pngOf().subarray(0, 40), 'picture-broken'],
    ['a picture with a page behind it', bytesOf(jpegOf(), htmlPage), 'picture-broken'],
    [
      'a picture with a page among its pixels',
      pngOf({ packed: bytesOf(deflateSync(new Uint8Array(76)), htmlPage) }),
      'picture-broken',
    ],
    [
      'a picture that unpacks to far more',
      pngOf({ packed: deflateSync(new Uint8Array(20_000_000)) }),
      'picture-broken',
    ],
    ['a picture of 5000 pixels', pngOf({ width: 5000, height: 1 }), 'picture-too-large'],
    ['a moving picture', pngOf({ before: [pngChunk('acTL', [0, 0, 0, 1, 0, 0, 0, 0])] }), 'picture-unsupported'],
    [
      'a lossless JPEG',
      bytesOf([0xff, 0xd8], jpegSegment(0xc3, [8, 0, 8, 0, 8, 1, 1, 0x11, 0]), [0xff, 0xd9]),
      'picture-unsupported',
    ],
  ] as const)('is not taken when it is %s', async (_, bytes, code) => {
    expect(await codeOf(await send(bytes))).toBe(code)
    expect(await pictures()).toEqual([])
  })

  it('is not read on beyond what may be sent, whatever its length is said to be', async () => {
    expect(await codeOf(await send(new Uint8Array(sentPictureBytes + 1)))).toBe('picture-too-large')
    const status = await new Promise<number | undefined>((resolve, reject) => {
      const headers = { cookie: team, origin: board.url, 'transfer-encoding': 'chunked' }
      const posting = request(`${board.url}/api/cases/${caseId}/pictures`, { method: 'POST', headers }, (response) => {
        resolve(response.statusCode)
        posting.destroy()
      })
      posting.on('error', reject)
      for (let chunk = 0; chunk < 40; chunk++) posting.write(new Uint8Array(64 * 1024))
    })
    expect(status).toBe(413)
    expect((await send(pngOf())).status).toBe(201)
  })

  it('is not taken from somebody whose access ended while it was on its way', async () => {
    const slow = await board.join('team', { kind: 'programme', id: 'day' }, 'Slow')
    const asked = vi.spyOn(board.store, 'findCase')
    const headers = { cookie: slow, origin: board.url, 'transfer-encoding': 'chunked' }
    const posting = request(`${board.url}/api/cases/${caseId}/pictures`, { method: 'POST', headers })
    const status = new Promise((resolve, reject) => {
      posting.on('response', (response) => resolve(response.statusCode)).on('error', reject)
    })
    const bytes = pngOf()
    posting.write(bytes.subarray(0, 20))
    await vi.waitFor(() => expect(asked).toHaveBeenCalled())
    await asked.mock.results[0]?.value
    asked.mockRestore()
    const invitation = (await board.store.listInvitations()).find(({ label }) => label === 'Slow')
    await board.store.revokeInvitation(invitation?.id ?? '', now().toISOString())
    posting.end(bytes.subarray(20))
    expect([await status, await pictures()]).toEqual([403, []])
  })

  it('has at most a megabyte once it is cleaned; metadata that is left out does not count', async () => {
    const note = jpegSegment(0xfe, new Uint8Array(65_000))
    const { bytes } = await sent(jpegOf({ before: Array.from({ length: 20 }, () => note) }))
    expect(bytes).toBeLessThan(300)
    const scan = bytesOf(jpegSegment(0xda, [1, 1, 0, 0, 63, 0]), new Uint8Array(pictureLimits.bytes))
    expect(await codeOf(await send(jpegOf({ after: [scan] })))).toBe('picture-too-large')
  })

  it.each([
    ['a caption of a thousand letters', { [pictureHeaders.caption]: 'x'.repeat(1000) }],
    ['a caption that is no UTF-8', { [pictureHeaders.caption]: '%ff%fe' }],
    ['a step that is no id', { [pictureHeaders.step]: '../steps' }],
  ])('is not taken with %s', async (_, headers) => {
    expect(await codeOf(await send(pngOf(), team, headers as Record<string, string>))).toBe('bad-request')
  })

  it('belongs to a step of its case, and comes into no closed case', async () => {
    expect(await codeOf(await send(pngOf(), team, { [pictureHeaders.step]: 'step-gone' }))).toBe('edit-refused')
    await write((doc) =>
      putRecord(doc, 'header', { ...sampleRecord('header', 'only', 'seed'), phase: 'closed' } as never),
    )
    expect(await codeOf(await send(pngOf()))).toBe('edit-refused')
    expect(await pictures()).toEqual([])
  })

  it('comes no faster than a hand sends them', async () => {
    const answers: number[] = []
    for (let count = 0; count < 25; count++) answers.push((await send(htmlPage)).status)
    expect(answers.filter((status) => status === 429).length).toBe(5)
    clock.now = new Date(clock.now.getTime() + 4_000)
    expect((await send(pngOf())).status).toBe(201)
  })

  it('is one of at most so many, also when the last two are sent at once', async () => {
    await write((doc) => {
      for (let count = 1; count < pictureLimits.ofCase; count++)
        putRecord(doc, 'pictures', sampleRecord('pictures', `seeded-${count}`, 'seed') as never)
    })
    const statuses = (await Promise.all([send(noise(1)), send(noise(2), moderator)])).map(({ status }) => status)
    expect(statuses.toSorted()).toEqual([201, 409])
    expect(await pictures()).toHaveLength(pictureLimits.ofCase)
    // What was stored for the one too many has gone with it.
    expect([await isInFile(noise(1)), await isInFile(noise(2))].filter(Boolean)).toHaveLength(1)
    expect(await codeOf(await send(pngOf()))).toBe('too-many-pictures')
  })
})

describe('[G18] a photograph that is withdrawn', () => {
  const withdraw = (id: string, cookie = moderator) =>
    board.post(`/api/cases/${caseId}/withdrawals`, { kind: 'pictures', id, reason: 'A face' }, cookie)

  it('is gone from the record, the screen, every earlier moment and its address, and kept for the owner alone', async () => {
    const { id } = await sent(noise(3))
    const tag = (await open(id)).headers.get('etag') ?? ''
    const before = now().toISOString()
    for (const cookie of [team, panel]) expect(await codeOf(await withdraw(id, cookie))).toBe('not-permitted')
    expect((await withdraw(id)).status).toBe(200)
    for (const cookie of [owner, moderator, team, panel, observer]) expect((await open(id, cookie)).status).toBe(404)
    expect((await askAgain(id, tag)).status).toBe(404)
    expect(await pictures()).toEqual([])
    const moment = await bytesIn(await board.get(`/api/cases/${caseId}/moments/${before}`, panel))
    expect(Buffer.from(moment).toString('latin1')).not.toContain(createHash('sha256').update(noise(3)).digest('hex'))
    const list = WithdrawalList.parse(await (await board.get(`/api/cases/${caseId}/withdrawals`, owner)).json())
    const [withdrawal] = list.withdrawals ?? []
    expect(withdrawal).toMatchObject({ kind: 'pictures', reason: 'A face' })
    const kept = `/api/cases/${caseId}/withdrawals/${withdrawal?.id}/picture`
    for (const cookie of [moderator, team, observer])
      expect(await codeOf(await board.get(kept, cookie))).toBe('not-permitted')
    const response = await board.get(kept, owner)
    expect(response.headers.get('cache-control')).toBe('no-store')
    expect(await bytesIn(response)).toEqual(noise(3))
  })

  it('and one of a case that is erased stand in no file any more, and the receipt counts both', async () => {
    const [first, second] = [await sent(noise(4)), await sent(noise(5))]
    expect([await isInFile(noise(4)), await isInFile(noise(5))]).toEqual([true, true])
    expect((await withdraw(first.id)).status).toBe(200)
    const erased = await board.post(`/api/cases/${caseId}/erase`, { label: `Label ${caseId}` }, owner)
    expect(ErasureReceipt.parse(await erased.json()).counts.pictures).toBe(2)
    expect([await isInFile(noise(4)), await isInFile(noise(5))]).toEqual([false, false])
    expect((await open(second.id)).ok).toBe(false)
  })
})

describe('[G18] the record of a photograph', () => {
  const at = sampleNow.toISOString()
  /** What the guard says to a moderator's page that makes this edit of a case with one photograph of their own. */
  function judged(edit: (doc: Y.Doc) => void): string {
    const seeded = new Y.Doc()
    putRecord(seeded, 'pictures', sampleRecord('pictures', 'one', 'ann', at) as never)
    const proposal = new Proposal('record', [Y.encodeStateAsUpdate(seeded)])
    const page = new Y.Doc()
    Y.applyUpdate(page, Y.encodeStateAsUpdate(seeded))
    const before = Y.encodeStateVector(page)
    page.transact(() => edit(page))
    const owners = new Map([[seeded.clientID, 'seed']])
    const by = { participant: 'ann', role: 'moderator' } as const
    const verdict = proposal.check(Y.encodeStateAsUpdate(page, before), by, owners, sampleNow.getTime())
    return verdict.ok ? 'accepted' : verdict.refused.code
  }
  const change = (patch: object) => judged((doc) => changeRecord(doc, 'pictures', 'one', patch))

  it('keeps what it says of the bytes, whoever would have it otherwise', () => {
    expect(change({ caption: 'later' })).toBe('accepted')
    for (const patch of [
      { sha256: 'a'.repeat(64) },
      { bytes: 1 },
      { width: 1 },
      { height: 1 },
      { mediaType: 'image/jpeg' },
    ])
      expect([patch, change(patch)]).toEqual([patch, 'fixed-field'])
  })

  it('names no step that is not there, and stays when its step goes', () => {
    expect(change({ step: 'step-gone' })).toBe('missing-reference')
    const withStep = (doc: Y.Doc) => putRecord(doc, 'steps', sampleRecord('steps', 'step-1', 'ann', at) as never)
    expect(
      judged((doc) => {
        withStep(doc)
        changeRecord(doc, 'pictures', 'one', { step: 'step-1' })
      }),
    ).toBe('accepted')
  })

  it('is neither made, nor removed, nor taken away and made again by a page', () => {
    const record = sampleRecord('pictures', 'two', 'ann', at)
    expect(judged((doc) => putRecord(doc, 'pictures', record as never))).toBe('not-permitted')
    expect(judged((doc) => removeRecord(doc, 'pictures', 'one'))).toBe('not-permitted')
    const other = { ...sampleRecord('pictures', 'one', 'ann', at), sha256: 'a'.repeat(64) }
    expect(judged((doc) => putRecord(doc, 'pictures', other as never))).toBe('fixed-field')
  })
})
