import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest'
import type * as Y from 'yjs'
import { raiseQuestion } from '../../lib/board/edits/floor.ts'
import { annotate } from '../../lib/board/edits/hearing.ts'
import type { Pen } from '../../lib/board/edits/writing.ts'
import { readTable } from '../../lib/board/reading.ts'
import { asDbHl } from '../../lib/units/levels.ts'
import { paceLimits } from '../../server/room/limits.ts'
import { LightClient } from '../support/light-client.ts'
import { type SyncServer, startSyncServer } from '../support/sync-server.ts'

/** The server's clock is set while people are inside: by hours, either way. Only the time of day jumps, not what passes. */
const hourMs = 3_600_000
let server: SyncServer
let made = 0

beforeEach(async () => {
  server = await startSyncServer()
})
afterEach(async () => {
  vi.useRealTimers()
  await server.stop()
})

const open = (document: string, who: string, role: string) =>
  LightClient.join(`${server.url}/sync/${document}.c-1?as=${who}&role=${role}&own=1`)
const penOf = (participant: string): Pen => ({ participant, now: () => new Date(), newId: () => `r-${++made}` })
const pin = (text: string) => (doc: Y.Doc) =>
  void annotate(doc, penOf('p-team'), {
    place: { kind: 'pin', ear: 'right', frequency: 1000, level: asDbHl(40) },
    text,
  })

function setClock(byMs: number): void {
  vi.useFakeTimers({ toFake: ['Date'], now: Date.now() + byMs })
}

describe('a clock of the server that jumps', () => {
  it.each([
    ['three hours ahead', 3 * hourMs],
    ['six hours back', -6 * hourMs],
  ])('%s ends no connection and refuses nobody who writes by it', async (_, byMs) => {
    const [writer, reader] = await Promise.all([open('record', 'p-team', 'team'), open('record', 'p-mod', 'moderator')])
    expect(await writer.attempt(pin('before'))).toBe('stored')
    setClock(byMs)
    for (let edit = 0; edit < 80; edit++) expect(await writer.attempt(pin(`after ${edit}`))).toBe('stored')
    await reader.until(() => readTable(reader.doc, 'annotations').length === 81)
    expect([writer, reader].map(({ socket }) => socket.readyState === socket.OPEN)).toEqual([true, true])
    const { updates } = await server.store.load('record.c-1')
    expect(updates.map(({ seq }) => seq)).toEqual(Array.from({ length: 81 }, (_, index) => index + 1))
    for (const client of [writer, reader]) client.close()
  })

  it('back by hours makes nobody of the panel wait for hours', async () => {
    const panel = await open('floor', 'p-pan', 'panel')
    const ask = () => panel.attempt((doc) => void raiseQuestion(doc, penOf('p-pan'), { text: `Question ${++made}?` }))
    for (let asked = 0; asked < paceLimits.questions.burst; asked++) expect(await ask()).toBe('stored')
    setClock(-6 * hourMs)
    const refused = await ask()
    expect(refused).toMatchObject({ code: 'too-often' })
    const { waitSeconds } = (refused as { facts: { waitSeconds: number } }).facts
    expect(waitSeconds).toBeLessThanOrEqual(60 / paceLimits.questions.perMinute)
    panel.close()
  })
})
