import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import * as Y from 'yjs'
import { documentName } from '../../lib/board/documents.ts'
import { showOnMainScreen } from '../../lib/board/edits/decisions.ts'
import { raiseQuestion, reply } from '../../lib/board/edits/floor.ts'
import type { Pen } from '../../lib/board/edits/writing.ts'
import { readRecord, readTable } from '../../lib/board/reading.ts'
import { ApiError, WithdrawalList } from '../../lib/interchange/api.ts'
import { openSqliteStore } from '../../server/store/sqlite-store.ts'
import { LightClient } from '../support/light-client.ts'
import { startServer, type TestServer, type Visitor } from '../support/start-server.ts'

/** What is withdrawn is gone from every page, from the log and from the file, and is kept for the owner alone. */
const slip = 'Has Mr Kingfisher of Bridge Street had this before?'
let server: TestServer
let caseId: string
let moderator: Visitor, panel: Visitor, owner: Visitor
let made = 0

beforeAll(async () => {
  server = await startServer()
  caseId = await server.createCase('Case Heron')
  ;[moderator, panel] = (await Promise.all([server.join('moderator', 'Mod'), server.join('panel', 'Pan')])) as [
    Visitor,
    Visitor,
  ]
  owner = await server.owner()
}, 600_000)
afterAll(() => server.stop())

const clientOf = ({ cookie }: Visitor, kind: 'record' | 'floor') =>
  LightClient.join(`${server.syncUrl}/${documentName(kind, caseId)}?own=1`, { headers: { cookie } })
const penOf = ({ participant }: Visitor): Pen => ({
  participant: participant.id,
  now: () => new Date(),
  newId: () => `made-${++made}`,
})
const path = () => `/api/cases/${caseId}/withdrawals`
const withdraw = (who: Visitor, id: string, kind = 'questions') =>
  server.post(path(), { kind, id, reason: 'A name of a patient' }, who.cookie)

/** Asks, has it answered by a reply, and has it put on the main screen. */
async function asked(): Promise<string> {
  const [floor, record] = [await clientOf(panel, 'floor'), await clientOf(moderator, 'record')]
  let id = ''
  await floor.attempt((doc) => {
    id = raiseQuestion(doc, penOf(panel), { text: slip })
  })
  expect(await floor.attempt((doc) => reply(doc, penOf(panel), id, 'Kingfisher, yes.'))).toBe('stored')
  expect(await record.attempt((doc) => showOnMainScreen(doc, penOf(moderator), { kind: 'question', id }))).toBe(
    'stored',
  )
  floor.close()
  record.close()
  return id
}

describe('a withdrawal', () => {
  it('takes a question from all screens at once, with its replies, and from every earlier moment', async () => {
    const id = await asked()
    const before = new Date().toISOString()
    const [watcher, screen] = [await clientOf(panel, 'floor'), await clientOf(moderator, 'record')]
    expect(readRecord(watcher.doc, 'questions', id)?.text).toBe(slip)
    expect((await withdraw(moderator, id)).status).toBe(200)
    await watcher.until(() => readRecord(watcher.doc, 'questions', id) === undefined)
    expect(readTable(watcher.doc, 'replies')).toEqual([])
    await screen.until(() => readRecord(screen.doc, 'mainScreen', 'only')?.showing.kind === 'nothing')
    const later = await clientOf(panel, 'floor')
    expect(Buffer.from(Y.encodeStateAsUpdate(later.doc)).toString('latin1')).not.toContain('Kingfisher')
    for (const moment of [before, new Date().toISOString()]) {
      const response = await fetch(`${server.url}/api/cases/${caseId}/moments/${moment}`, {
        headers: { cookie: panel.cookie },
      })
      expect(response.status).toBe(200)
      expect(Buffer.from(await response.arrayBuffer()).toString('latin1')).not.toContain('Kingfisher')
    }
    const timeline = JSON.stringify((await server.get(`/api/cases/${caseId}/timeline`, panel.cookie)).body)
    expect(timeline).not.toContain(id)
    for (const client of [watcher, screen, later]) client.close()
  })

  it('keeps what it was for the owner alone, with the reason', async () => {
    const { withdrawals } = WithdrawalList.parse((await server.get(path(), owner.cookie)).body)
    expect(withdrawals).toMatchObject([{ kind: 'questions', reason: 'A name of a patient', by: { name: 'Mod' } }])
    expect(withdrawals?.[0]?.content).toContain(slip)
    expect((await server.get(path(), moderator.cookie)).body).toEqual({ withdrawals: null })
    expect((await server.get(path(), panel.cookie)).status).toBe(403)
  })

  it('is for the moderator, of what is there, with a reason, and never of a sealed forecast', async () => {
    const id = await asked()
    expect(ApiError.parse((await withdraw(panel, id)).body).error.code).toBe('not-permitted')
    expect(ApiError.parse((await withdraw(moderator, 'no-such')).body).error.code).toBe('not-found')
    expect(ApiError.parse((await withdraw(moderator, 'only', 'plan')).body).error.code).toBe('bad-request')
    expect(ApiError.parse((await withdraw(moderator, id, 'forecasts')).body).error.code).toBe('bad-request')
    expect((await server.post(path(), { kind: 'questions', id, reason: ' ' }, moderator.cookie)).status).toBe(400)
    expect((await withdraw(moderator, id)).status).toBe(200)
  })

  it('is finished at the next start when the process was killed in the middle', async () => {
    const id = await asked()
    await server.kill9()
    const store = await openSqliteStore(join(server.dataDir, 'promontory.db'))
    await store.recordWithdrawal({
      id: 'half-done',
      caseId,
      document: documentName('floor', caseId),
      records: [{ kind: 'questions', id }],
      content: '[]',
      reason: 'half done',
      by: moderator.participant.id,
      role: 'moderator',
      at: new Date().toISOString(),
    })
    await store.close()
    await server.start()
    const watcher = await clientOf(panel, 'floor')
    expect(readRecord(watcher.doc, 'questions', id)).toBeUndefined()
    watcher.close()
    await server.terminate()
    // The owner keeps the three that were withdrawn with their words; log and states have none of them.
    const reopened = await openSqliteStore(join(server.dataDir, 'promontory.db'))
    expect(await reopened.openWithdrawals()).toEqual([])
    const [logged, states] = await Promise.all([
      reopened.log(documentName('floor', caseId), 0, 10_000),
      reopened.keptStates(documentName('floor', caseId)),
    ])
    await reopened.close()
    const bytes = [...logged.map(({ update }) => update), ...states.map(({ state }) => state)]
    expect(bytes.length).toBeGreaterThan(3)
    for (const each of bytes) expect(Buffer.from(each).toString('latin1')).not.toContain(slip)
    await server.start()
  })
})
