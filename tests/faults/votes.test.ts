import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import * as Y from 'yjs'
import { openVote, withdrawVote, writeVoteResult } from '../../lib/board/edits/votes.ts'
import { putRecord } from '../../lib/board/edits/writing.ts'
import { readRecord, readTable } from '../../lib/board/reading.ts'
import { ApiError, OwnBallot } from '../../lib/interchange/api.ts'
import { LightClient } from '../support/light-client.ts'
import { sampleRecord } from '../support/sample-records.ts'
import { startServer, type TestServer, type Visitor } from '../support/start-server.ts'

/** G12: secret until the close, one ballot a person, counted by the server alone, and there after `kill -9`. */
let server: TestServer
let caseId: string
let moderator: Visitor, panelOne: Visitor, panelTwo: Visitor, team: Visitor, observer: Visitor
let desk: LightClient
let watcher: LightClient

beforeAll(async () => {
  server = await startServer()
  caseId = await server.createCase('Case Heron')
  ;[moderator, panelOne, panelTwo, team, observer] = (await Promise.all([
    server.join('moderator', 'Mod'),
    server.join('panel', 'One'),
    server.join('panel', 'Two'),
    server.join('team', 'Team'),
    server.join('observer', 'Obs'),
  ])) as [Visitor, Visitor, Visitor, Visitor, Visitor]
  await connect()
}, 600_000)
afterAll(() => server.stop())

async function connect(): Promise<void> {
  const open = ({ cookie }: Visitor) =>
    LightClient.join(`${server.syncUrl}/record.${caseId}?own=1`, { headers: { cookie } })
  ;[desk, watcher] = await Promise.all([open(moderator), open(panelTwo)])
}

let made = 0
const pen = () => ({ participant: moderator.participant.id, now: () => new Date(), newId: () => `v-${++made}` })
const question = { question: 'Which site?', options: ['round window', 'stapes head'], asksConfidence: true }
async function opened(vote = question): Promise<string> {
  let id = ''
  const answer = await desk.attempt((copy) => {
    id = openVote(copy, pen(), vote)
  })
  expect(answer).toBe('stored')
  return id
}
const path = (id: string, act = '') => `/api/cases/${caseId}/votes/${id}${act}`
const cast = (who: Visitor, id: string, ballot: unknown) => server.post(path(id, '/ballot'), ballot, who.cookie)
const close = (who: Visitor, id: string) => server.post(path(id, '/close'), {}, who.cookie)
const own = async (who: Visitor, id: string) => OwnBallot.parse((await server.get(path(id), who.cookie)).body)
const codeOf = ({ body }: { body: unknown }) => ApiError.parse(body).error.code
const resultOf = (client: LightClient, id: string) => readRecord(client.doc, 'votes', id)?.result

describe('[G12] a vote', () => {
  it('takes one ballot a person, changed until the close, and nobody else hears of it', async () => {
    const id = await opened()
    expect((await cast(panelOne, id, { option: 1, confidence: 60 })).status).toBe(200)
    expect((await cast(panelOne, id, { option: 0, confidence: 90 })).status).toBe(200)
    expect((await cast(team, id, { option: 1 })).status).toBe(200)
    expect(await own(panelOne, id)).toEqual({ ballot: { option: 0, confidence: 90 }, turnout: null })
    expect(await own(panelTwo, id)).toEqual({ ballot: null, turnout: null })
    expect(await own(moderator, id)).toEqual({ ballot: null, turnout: 2 })
    await watcher.ask()
    const heard = Buffer.from(Y.encodeStateAsUpdate(watcher.doc)).toString('latin1')
    expect(heard).toContain('round window')
    for (const { participant } of [panelOne, team]) expect(heard).not.toContain(participant.id)
    expect(resultOf(watcher, id)).toBeUndefined()
  })

  it('refuses the ballots of observer and moderator, of strangers, and those that do not fit', async () => {
    const id = await opened({ ...question, asksConfidence: false })
    for (const who of [observer, moderator]) expect(codeOf(await cast(who, id, { option: 0 }))).toBe('not-permitted')
    expect((await server.post(path(id, '/ballot'), { option: 0 })).status).toBe(401)
    for (const ballot of [{ option: 2 }, { option: -1 }, { option: 0, confidence: 70 }, { option: 0, confidence: 49 }])
      expect(codeOf(await cast(panelOne, id, ballot))).toBe('bad-request')
    const forAnother = { option: 0, participant: panelTwo.participant.id }
    expect(codeOf(await cast(panelOne, id, forAnother))).toBe('bad-request')
    expect(codeOf(await cast(panelOne, 'no-such-vote', { option: 0 }))).toBe('not-found')
    for (const who of [panelOne, team, observer]) expect(codeOf(await close(who, id))).toBe('not-permitted')
    expect(await own(moderator, id)).toEqual({ ballot: null, turnout: 0 })
  })

  it('keeps its ballots through kill -9, and its result is what the server counted', async () => {
    const id = await opened()
    await cast(panelOne, id, { option: 0, confidence: 90 })
    await cast(team, id, { option: 0, confidence: 70 })
    await server.kill9()
    await server.start()
    await connect()
    expect((await own(panelOne, id)).ballot).toEqual({ option: 0, confidence: 90 })
    expect((await close(moderator, id)).status).toBe(200)
    await watcher.until(() => resultOf(watcher, id) !== undefined)
    expect(resultOf(watcher, id)).toMatchObject({
      by: moderator.participant.id,
      options: [{ votes: 2, confidence: { low: 70, median: 80, high: 90 } }, { votes: 0 }],
      confidence: { low: 70, median: 80, high: 90 },
      notVoted: 1,
    })
    const before = resultOf(watcher, id)
    expect(codeOf(await cast(panelTwo, id, { option: 1 }))).toBe('vote-closed')
    expect((await close(moderator, id)).status).toBe(200)
    await watcher.ask()
    expect(resultOf(watcher, id)).toEqual(before)
    await server.kill9()
    await server.start()
    await connect()
    expect(resultOf(desk, id)).toEqual(before)
  })

  it('has no result by any hand, never changes while it is open, and stays once it is closed', async () => {
    const result = {
      by: moderator.participant.id,
      at: new Date().toISOString(),
      options: [{ votes: 9 }, { votes: 0 }],
      notVoted: 0,
    }
    const forged = { ...sampleRecord('votes', 'v-forged', moderator.participant.id, new Date().toISOString()), result }
    expect(await desk.attempt((copy) => putRecord(copy, 'votes', forged as never))).toMatchObject({
      code: 'counted-by-server',
    })
    const id = await opened()
    expect(await desk.attempt((copy) => writeVoteResult(copy, id, result))).toMatchObject({ code: 'fixed-field' })
    const turned = { ...readRecord(desk.doc, 'votes', id), options: ['stapes head', 'round window'] }
    expect(await desk.attempt((copy) => putRecord(copy, 'votes', turned as never))).toMatchObject({
      code: 'fixed-field',
    })
    expect(await watcher.attempt((copy) => withdrawVote(copy, id))).toMatchObject({ code: 'not-permitted' })
    await close(moderator, id)
    await desk.until(() => resultOf(desk, id) !== undefined)
    expect(resultOf(desk, id)).toMatchObject({ options: [{ votes: 0 }, { votes: 0 }], notVoted: 3 })
    expect(await desk.attempt((copy) => withdrawVote(copy, id))).toMatchObject({ code: 'closed-vote' })
    expect(await desk.attempt((copy) => writeVoteResult(copy, id, result))).toMatchObject({
      code: expect.stringMatching(/^(closed-vote|fixed-field)$/),
    })
    expect(await desk.attempt((copy) => putRecord(copy, 'votes', turned as never))).toMatchObject({
      code: expect.stringMatching(/^(closed-vote|fixed-field)$/),
    })
  })

  it('that is taken away and made again under its id begins without ballots, and about no note that is not there', async () => {
    const id = await opened()
    await cast(panelOne, id, { option: 0 })
    expect(await desk.attempt((copy) => withdrawVote(copy, id))).toBe('stored')
    const again = { ...sampleRecord('votes', id, moderator.participant.id, new Date().toISOString()) }
    expect(await desk.attempt((copy) => putRecord(copy, 'votes', again as never))).toBe('stored')
    expect(await own(moderator, id)).toEqual({ ballot: null, turnout: 0 })
    const lost = { ...question, note: 'no-such-note' }
    expect(await desk.attempt((copy) => void openVote(copy, pen(), lost))).toMatchObject({ code: 'missing-reference' })
    expect(readTable(desk.doc, 'votes').filter(({ note }) => note !== undefined)).toEqual([])
  })
})
