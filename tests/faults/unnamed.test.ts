import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import * as Y from 'yjs'
import { callQuestion, raiseQuestion, reply, toggleBacking } from '../../lib/board/edits/floor.ts'
import { keepVideoDelay } from '../../lib/board/edits/video-delay.ts'
import type { Pen } from '../../lib/board/edits/writing.ts'
import { isUnnamed } from '../../lib/board/identity.ts'
import { readTable } from '../../lib/board/reading.ts'
import { ApiError } from '../../lib/interchange/api.ts'
import { AskedUnnamed, UnnamedAuthors } from '../../lib/interchange/unnamed.ts'
import { paceLimits } from '../../server/room/limits.ts'
import { LightClient } from '../support/light-client.ts'
import { startServer, type TestServer, type Visitor } from '../support/start-server.ts'

/** G15: a question without a name says to nobody but the moderators whose it is, and stays its asker's through `kill -9`. */
let server: TestServer
let caseId: string
let moderator: Visitor, asker: Visitor, other: Visitor, team: Visitor, observer: Visitor
let watcher: LightClient
let page: LightClient

beforeAll(async () => {
  server = await startServer()
  caseId = await server.createCase('Case Heron')
  ;[moderator, asker, other, team, observer] = (await Promise.all([
    server.join('moderator', 'Mod'),
    server.join('panel', 'Asker'),
    server.join('panel', 'Other'),
    server.join('team', 'Team'),
    server.join('observer', 'Obs'),
  ])) as [Visitor, Visitor, Visitor, Visitor, Visitor]
  await connect()
}, 600_000)
afterAll(() => server.stop())

const open = ({ cookie }: Visitor) =>
  LightClient.join(`${server.syncUrl}/floor.${caseId}?own=1`, { headers: { cookie } })
async function connect(): Promise<void> {
  ;[watcher, page] = (await Promise.all([open(other), open(asker)])) as [LightClient, LightClient]
}

let made = 0
const penOf = ({ participant }: Visitor): Pen => ({
  participant: participant.id,
  now: () => new Date(),
  newId: () => `n-${++made}`,
})
const path = (author = '', act = '') => `/api/cases/${caseId}/unnamed${author === '' ? '' : `/${author}`}${act}`
const codeOf = ({ body }: { body: unknown }) => ApiError.parse(body).error.code
const authorsFor = async (who: Visitor) => UnnamedAuthors.parse((await server.get(path(), who.cookie)).body).authors

async function ask(text: string, who = asker): Promise<string> {
  const { author } = AskedUnnamed.parse((await server.post(path(), { text }, who.cookie)).body)
  await watcher.until(() => readTable(watcher.doc, 'questions').some((question) => question.author === author))
  return author
}
const questionBy = (author: string, { doc }: LightClient = watcher) =>
  readTable(doc, 'questions').find((question) => question.author === author)

describe('[G15] a question without a name', () => {
  it('carries nothing of its asker: no id, no mark of their page, no video delay', async () => {
    await page.attempt((doc) => keepVideoDelay(doc, penOf(asker), { delaysMs: [9000, 9100, 9200], clockErrorMs: 10 }))
    await page.attempt((doc) => void raiseQuestion(doc, penOf(asker), { text: 'Named?' }))
    await watcher.ask()
    const before = Y.decodeUpdate(Y.encodeStateAsUpdate(watcher.doc)).structs.map(({ id }) => id.client)
    const known = Y.encodeStateVector(watcher.doc)
    const author = await ask('May I ask about the consent?')
    expect(isUnnamed(author)).toBe(true)
    expect(questionBy(author)?.pictureAt).toBeUndefined()
    const added = Y.encodeStateAsUpdate(watcher.doc, known)
    expect(Buffer.from(added).includes(asker.participant.id)).toBe(false)
    expect(Buffer.from(added).includes('Asker')).toBe(false)
    for (const { id } of Y.decodeUpdate(added).structs) expect(before).not.toContain(id.client)
  })

  it('is told to moderators with its name and the moment of the picture, to its asker as their own, to nobody else', async () => {
    const author = await ask('Who wrote this?')
    const told = (await authorsFor(moderator)).find((one) => one.author === author)
    expect(told).toMatchObject({ isOwn: false, person: { id: asker.participant.id, name: 'Asker' } })
    expect(told?.pictureAt).not.toBeNull()
    expect((await authorsFor(asker)).find((one) => one.author === author)).toEqual({
      author,
      isOwn: true,
      person: null,
      pictureAt: null,
    })
    expect(await authorsFor(other)).toEqual([])
    expect(await authorsFor(team)).toEqual([])
    expect((await server.get(path(), observer.cookie)).status).toBe(403)
    expect((await server.get(path())).status).toBe(401)
  })

  it('stays hidden in what looking back hands out, and in the list of people', async () => {
    const author = await ask('Is this seen in rewind?')
    const { at } = questionBy(author) as { at: string }
    const later = new Date(Date.parse(at) + 60_000).toISOString()
    const timeline = JSON.stringify((await server.get(`/api/cases/${caseId}/timeline`, other.cookie)).body)
    expect(timeline).not.toContain(asker.participant.id)
    const moment = await fetch(`${server.url}/api/cases/${caseId}/moments/${later}`, {
      headers: { cookie: other.cookie },
    })
    expect(moment.status).toBe(200)
    const bytes = Buffer.from(await moment.arrayBuffer())
    expect(bytes.includes('Is this seen in rewind?')).toBe(true)
    expect(bytes.includes(author)).toBe(true)
    const people = JSON.stringify((await server.get(`/api/cases/${caseId}/people`, other.cookie)).body)
    expect(people).not.toContain(author)
  })

  it('is reworded, answered to and withdrawn by its asker alone, while it waits', async () => {
    const author = await ask('Frist version?')
    for (const who of [other, moderator, team]) {
      expect(codeOf(await server.post(path(author), { text: 'Mine?' }, who.cookie))).toBe('not-found')
      expect(codeOf(await server.post(path(author, '/withdraw'), {}, who.cookie))).toBe('not-found')
    }
    expect((await server.post(path(author), { text: 'First version?' }, asker.cookie)).status).toBe(200)
    await watcher.until(() => questionBy(author)?.text === 'First version?')
    expect((await server.post(path(author, '/reply'), { text: 'I mean before the graft.' }, asker.cookie)).status).toBe(
      200,
    )
    await watcher.until(() => readTable(watcher.doc, 'replies').some((one) => one.author === author))
    const desk = await open(moderator)
    await desk.attempt((doc) => callQuestion(doc, penOf(moderator), questionBy(author)?.id ?? ''))
    expect(codeOf(await server.post(path(author, '/withdraw'), {}, asker.cookie))).toBe('edit-refused')
    desk.close()
    const second = await ask('Taken back?')
    expect((await server.post(path(second, '/withdraw'), {}, asker.cookie)).status).toBe(200)
    await watcher.until(() => questionBy(second) === undefined)
  })

  it('is not written by a page under an author that it was not given, and not backed by its asker', async () => {
    const author = await ask('Do I back myself?')
    const forged = { ...penOf(other), participant: author }
    expect(await watcher.attempt((doc) => void raiseQuestion(doc, forged, { text: 'Forged?' }))).toMatchObject({
      code: 'wrong-author',
    })
    const id = questionBy(author)?.id ?? ''
    expect(await watcher.attempt((doc) => void reply(doc, forged, id, 'Forged.'))).toMatchObject({
      code: 'wrong-author',
    })
    await page.ask()
    expect(await page.attempt((doc) => toggleBacking(doc, penOf(asker), id))).toMatchObject({ code: 'own-question' })
    expect(await watcher.attempt((doc) => toggleBacking(doc, penOf(other), id))).toBe('stored')
  })

  it("is its asker's after kill -9 as before", async () => {
    const author = await ask('Does it survive?')
    await server.kill9()
    await server.restart()
    await connect()
    const { id } = questionBy(author) as { id: string }
    expect((await authorsFor(asker)).some((one) => one.author === author)).toBe(true)
    expect(await page.attempt((doc) => toggleBacking(doc, penOf(asker), id))).toMatchObject({ code: 'own-question' })
    expect((await server.post(path(author, '/withdraw'), {}, asker.cookie)).status).toBe(200)
  })

  it('counts against the pace of the person who asks, named or not', async () => {
    const { burst } = paceLimits.questions
    let last = { status: 201, body: undefined as unknown }
    for (let n = 0; n <= burst && last.status === 201; n++)
      last = await server.post(path(), { text: `Again ${n}?` }, other.cookie)
    expect(codeOf(last)).toBe('edit-refused')
    expect(ApiError.parse(last.body).error.message).toMatch(/Wait \d+ seconds?/)
    expect(await watcher.attempt((doc) => void raiseQuestion(doc, penOf(other), { text: 'By name?' }))).toMatchObject({
      code: 'too-often',
    })
    expect(codeOf(await server.post(path(), { text: 'x'.repeat(601) }, other.cookie))).toBe('bad-request')
    expect(codeOf(await server.post(path(), { text: 'x'.repeat(100_000) }, other.cookie))).toBe('too-large')
  })
})
