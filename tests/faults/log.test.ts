import { readFile } from 'node:fs/promises'
import { connect } from 'node:net'
import Database from 'better-sqlite3'
import { strToU8, zipSync } from 'fflate'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { WebSocket } from 'ws'
import type * as Y from 'yjs'
import { addContingency, addStep, startNote } from '../../lib/board/edits/decisions.ts'
import { raiseQuestion, reply } from '../../lib/board/edits/floor.ts'
import { annotate } from '../../lib/board/edits/hearing.ts'
import { openVote } from '../../lib/board/edits/votes.ts'
import { type Pen, putRecord, writeSingle } from '../../lib/board/edits/writing.ts'
import type { Annotation } from '../../lib/board/records/annotation.ts'
import { pictureHeaders } from '../../lib/interchange/pictures/new-picture.ts'
import { asDbHl } from '../../lib/units/levels.ts'
import { dataFiles } from '../../server/data-folder.ts'
import { pngOf } from '../fixtures/pictures.ts'
import { BoardNodes } from '../support/board-nodes.ts'
import { LightClient } from '../support/light-client.ts'
import { startServer, type TestServer, type Visitor } from '../support/start-server.ts'

/**
 * Whatever people write, and whatever goes wrong with it, stays out of the log: everything that this script types carries
 * one word, and everything that opens a door is remembered; neither may stand in what the server prints.
 */
const word = 'kingfisher'
let written = 0
const mark = (): string => `${word} ${++written}`

/** What opens a door: cookies, links, tickets, the key. */
let secrets: string[]
let server: TestServer
let caseId: string
let panel: Visitor, moderator: Visitor, owner: Visitor
let record: LightClient, floor: LightClient

const penOf = ({ participant }: Visitor): Pen => ({
  participant: participant.id,
  now: () => new Date(),
  newId: () => `made-${++written}`,
})
const openAs = (who: Visitor, kind: 'record' | 'floor') =>
  LightClient.join(`${server.syncUrl}/${kind}.${caseId}?own=1`, { headers: { cookie: who.cookie } })

const tokenOf = (link: string): string => link.split('/').at(-1) ?? ''

async function join(role: 'moderator' | 'panel', name: string): Promise<Visitor> {
  const link = await server.invite({ role, label: mark(), scope: { kind: 'case', id: caseId } })
  const visitor = await server.joinBy(link, name, mark())
  secrets.push(tokenOf(link), visitor.cookie.split('=')[1] ?? '')
  return visitor
}

async function meet(): Promise<void> {
  secrets = [(await readFile(dataFiles(server.dataDir).key)).toString('base64url')]
  owner = await server.owner()
  secrets.push(owner.cookie.split('=')[1] ?? '')
  caseId = await server.createCase(mark())
  ;[moderator, panel] = [await join('moderator', mark()), await join('panel', mark())]
  ;[record, floor] = [await openAs(moderator, 'record'), await openAs(panel, 'floor')]
}

/** Everything that a case is made of. */
async function write(): Promise<void> {
  const pen = penOf(moderator)
  const header = {
    pseudonym: mark(),
    ear: 'right',
    sex: 'male',
    ageYears: 47,
    summary: mark(),
    phase: 'planning',
  } as const
  const edits: readonly ((doc: Y.Doc) => void)[] = [
    (doc) => writeSingle(doc, pen, 'header', header),
    (doc) => void annotate(doc, pen, { place: pin, text: mark() }),
    (doc) => void startNote(doc, pen, 'finding'),
    (doc) => void addStep(doc, pen, { title: mark(), check: mark(), hazard: mark() }),
    (doc) => void addContingency(doc, pen, { kind: 'found', finding: mark() }, mark()),
  ]
  for (const edit of edits) expect(await record.attempt(edit)).toBe('stored')
  let question = ''
  const asked = await floor.attempt((doc) => {
    question = raiseQuestion(doc, penOf(panel), { text: mark() })
  })
  expect(asked).toBe('stored')
  expect(await floor.attempt((doc) => void reply(doc, penOf(panel), question, mark()))).toBe('stored')
  const unnamed = await server.post(`/api/cases/${caseId}/unnamed`, { text: mark() }, panel.cookie)
  expect(unnamed.status).toBe(201)
  const taken = { kind: 'questions', id: question, reason: mark() }
  expect((await server.post(`/api/cases/${caseId}/withdrawals`, taken, moderator.cookie)).status).toBe(200)
  let vote = ''
  await record.attempt((doc) => {
    vote = openVote(doc, pen, { question: mark(), options: [mark(), mark()], asksConfidence: false })
  })
  for (const [act, body, who] of [
    ['ballot', { option: 1 }, panel],
    ['close', {}, moderator],
  ] as const)
    expect((await server.post(`/api/cases/${caseId}/votes/${vote}/${act}`, body, who.cookie)).status).toBe(200)
}

const pin = { kind: 'pin', ear: 'right', frequency: 1000, level: asDbHl(40) } as const

/** What the guard and the API refuse, each with words in it. */
async function beRefused(): Promise<void> {
  const foreign = { id: mark(), author: mark(), at: new Date().toISOString(), place: pin, text: mark() } as Annotation
  const refused: readonly ((doc: Y.Doc) => void)[] = [
    (doc) => putRecord(doc, 'annotations', foreign),
    (doc) => void annotate(doc, penOf(moderator), { place: { ...pin, ear: mark() as 'right' }, text: mark() }),
    (doc) => void annotate(doc, penOf(moderator), { place: pin, text: mark().repeat(500) }),
    (doc) => void doc.getMap(mark()).set(mark(), mark()),
  ]
  for (const edit of refused) expect(await record.attempt(edit)).not.toBe('stored')
  expect(await record.send(Buffer.from(mark()))).not.toBe('stored')
  const trespasser = await openAs(panel, 'record')
  expect(await trespasser.attempt((doc) => void annotate(doc, penOf(panel), { place: pin, text: mark() }))).not.toBe(
    'stored',
  )
  trespasser.close()
  for (const [path, body] of [
    ['/api/programmes', { label: mark().repeat(100) }],
    ['/api/programmes', { label: mark(), [mark()]: mark() }],
    [`/api/cases/${mark()}/erase`, { label: mark() }],
    [`/api/cases/${caseId}/erase`, { label: mark() }],
    ['/api/join', { token: mark(), name: mark(), affiliation: mark() }],
    [`/api/${mark()}`, {}],
  ] as const)
    expect([path, (await server.post(path, body, owner.cookie)).status >= 400]).toEqual([path, true])
  expect((await server.post('/api/programmes', { label: mark() }, panel.cookie)).status).toBe(403)
}

async function tryBadLinks(): Promise<void> {
  const link = await server.invite({ role: 'panel', label: mark(), scope: { kind: 'case', id: caseId } })
  const { body } = await server.get('/api/invitations', owner.cookie)
  const { invitations } = body as { invitations: { id: string }[] }
  secrets.push(tokenOf(link))
  await server.post(`/api/invitations/${invitations[0]?.id}/revoke`, {}, owner.cookie)
  for (const token of [tokenOf(link), `${word}-token`, `${tokenOf(link)}x`]) {
    const joined = await server.post('/api/join', { token, name: mark(), affiliation: mark() })
    expect(joined.status).toBeGreaterThanOrEqual(400)
    await server.get(`/api/invitations/${token}/preview`)
    await fetch(`${server.url}/join/${token}?${word}=${word}`, { headers: { 'x-note': mark(), referer: mark() } })
  }
  for (const path of [`/${word}`, `/case/${word}?note=${word}`, `/%E0%A4%A?${word}`, `/_next/${word}`])
    await fetch(server.url + path, { headers: { cookie: owner.cookie } })
}

async function uploadRubbish(): Promise<void> {
  for (const [caption, bytes, status] of [
    [mark(), pngOf({}), 201],
    [mark().repeat(200), pngOf({}), 400],
    [mark(), strToU8(mark()), 415],
  ] as const) {
    const headers = { cookie: moderator.cookie, origin: server.url, 'content-type': 'image/png' }
    const answer = await fetch(`${server.url}/api/cases/${caseId}/pictures`, {
      method: 'POST',
      headers: { ...headers, [pictureHeaders.caption]: encodeURIComponent(caption) },
      body: Buffer.from(bytes),
    })
    expect(answer.status).toBe(status)
  }
  const path = `/api/programmes/${await server.programme()}/archives`
  const files = [
    strToU8(mark()),
    zipSync({ [`${mark()}.json`]: strToU8(mark()) }),
    zipSync({ 'manifest.json': strToU8(`{"${mark()}": ${mark()}`), 'record.log': strToU8(mark()) }),
  ]
  for (const file of files) {
    const headers = { cookie: owner.cookie, origin: server.url, 'content-type': 'application/zip' }
    const answer = await fetch(server.url + path, { method: 'POST', headers, body: Buffer.from(file) })
    expect(answer.status).toBe(422)
  }
  const headers = { cookie: owner.cookie, origin: server.url, 'content-type': 'application/json' }
  const broken = await fetch(`${server.url}/api/programmes`, { method: 'POST', headers, body: `{"label": ${mark()}` })
  expect(broken.status).toBe(400)
}

/** Sockets that are turned away, and bytes that are no request at all. */
async function knock(): Promise<void> {
  const ended = (address: string, headers: Record<string, string> = {}) =>
    new Promise((resolve) => {
      const socket = new WebSocket(address, { headers })
      socket.once('error', resolve)
      socket.once('close', resolve)
    })
  await ended(`${server.syncUrl}/record.${caseId}?ticket=${word}.${word}`)
  await ended(`${server.syncUrl}/record.${word}`, { cookie: `promontory=${word}` })
  await ended(`${server.syncUrl}/%E0%A4%A${word}`, { cookie: moderator.cookie })
  await ended(`${server.syncUrl}/record.${caseId}`, { cookie: moderator.cookie, origin: `http://${word}.example` })
  await ended(`${server.url.replace('http', 'ws')}/follow/${word}`, { cookie: moderator.cookie })
  await new Promise<void>((resolve) => {
    const socket = connect(Number(new URL(server.url).port), '127.0.0.1')
    socket.once('close', () => resolve())
    socket.on('error', () => undefined)
    socket.end(`${word} ${word}\r\n${word}\r\n\r\n`)
    socket.resume()
  })
}

/** Everything is tried once more while nothing can be stored: errors are logged with what the database says. */
async function writeInto(outage: () => () => void): Promise<void> {
  const stranger = server.post('/api/join', { token: mark(), name: mark(), affiliation: mark() })
  const end = outage()
  const closed = Promise.all([record.closed(), floor.closed()])
  void record.attempt((doc) => void annotate(doc, penOf(moderator), { place: pin, text: mark() }))
  void floor.attempt((doc) => void raiseQuestion(doc, penOf(panel), { text: mark() }))
  const answers = await Promise.all([
    server.post('/api/programmes', { label: mark() }, owner.cookie),
    server.post(`/api/cases/${caseId}/unnamed`, { text: mark() }, panel.cookie),
    closed,
    stranger,
  ])
  expect([answers[0].status, answers[1].status]).toEqual([503, 503])
  end()
}

function standsNowhere(): void {
  const log = server.errors.toLowerCase()
  for (const event of ['joined', 'link-unknown', 'request-refused', 'store-outage', 'api-failed'])
    expect(log).toContain(`"event":"${event}"`)
  const at = log.indexOf(word)
  expect(at === -1 ? '' : log.slice(Math.max(0, at - 300), at + 100)).toBe('')
  expect(server.printed.toLowerCase()).not.toContain(word)
  for (const secret of [...secrets, tokenOf(server.ownerLink)]) {
    expect(secret.length).toBeGreaterThan(20)
    expect(server.errors).not.toContain(secret)
  }
  for (const secret of secrets) expect(server.printed).not.toContain(secret)
  // The owner's link stands there once, at the first start.
  expect(server.printed.split(tokenOf(server.ownerLink))).toHaveLength(2)
}

/** Meets, writes, is refused, loses its store, and is started again. */
async function play(outage: () => () => void): Promise<void> {
  await meet()
  await write()
  await beRefused()
  await tryBadLinks()
  await uploadRubbish()
  await knock()
  await writeInto(outage)
  await server.restart()
  ;[record, floor] = [await openAs(moderator, 'record'), await openAs(panel, 'floor')]
  expect(await record.attempt((doc) => void annotate(doc, penOf(moderator), { place: pin, text: mark() }))).toBe(
    'stored',
  )
  for (const client of [record, floor]) client.close()
}

describe('the log of a server on SQLite', () => {
  const metricsToken = `${word}-token-for-metrics`
  beforeAll(async () => {
    server = await startServer({ env: { METRICS_TOKEN: metricsToken } })
  }, 600_000)
  afterAll(() => server.stop())

  it('carries nothing that people wrote, and nothing that opens a door', { timeout: 120_000 }, async () => {
    await play(() => {
      const other = new Database(dataFiles(server.dataDir).store)
      other.exec('BEGIN IMMEDIATE')
      return () => other.close()
    })
    await fetch(`${server.url}/metrics`, { headers: { authorization: `Bearer ${metricsToken}` } })
    standsNowhere()
  })
})

describe('the log of a server on PostgreSQL', () => {
  let board: BoardNodes
  beforeAll(async () => {
    board = await BoardNodes.start(1)
    server = board.node(0)
  }, 600_000)
  afterAll(() => board.stop())

  it('carries nothing that people wrote, and nothing that opens a door', { timeout: 120_000 }, async () => {
    await play(() => {
      board.link(0).hold()
      return () => board.link(0).release()
    })
    standsNowhere()
  })
})
