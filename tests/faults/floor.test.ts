import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type * as Y from 'yjs'
import {
  callQuestion,
  foldQuestion,
  raiseQuestion,
  toggleBacking,
  withdrawQuestion,
} from '../../lib/board/edits/floor.ts'
import type { Pen } from '../../lib/board/edits/writing.ts'
import { readTable } from '../../lib/board/reading.ts'
import type { Role } from '../../lib/board/roles.ts'
import { paceLimits } from '../../server/room/limits.ts'
import { Pace } from '../../server/room/pace.ts'
import { LightClient } from '../support/light-client.ts'
import { sampleId, sampleRecord } from '../support/sample-records.ts'
import { type SyncServer, startSyncServer } from '../support/sync-server.ts'

let server: SyncServer
let cases = 0
let ids = 0
beforeAll(async () => {
  server = await startSyncServer()
  await server.store.createProgramme({ id: 'programme', label: 'Programme', createdAt: new Date().toISOString() })
})
afterAll(() => server.stop())

/** A fresh case, and the way into its floor. */
async function openFloor() {
  const id = `case-${++cases}`
  await server.store.createCase({
    id,
    programme: 'programme',
    label: id,
    rank: `a${cases}`,
    createdAt: new Date().toISOString(),
  })
  return (as: string, role: Role) => LightClient.join(`${server.url}/sync/floor.${id}?own=1&as=${as}&role=${role}`)
}

const penOf = (participant: string): Pen => ({ participant, now: () => new Date(), newId: () => `id-${++ids}` })
const asking = (who: string, text: string) => (doc: Y.Doc) => void raiseQuestion(doc, penOf(who), { text })
const idOf = ({ doc }: LightClient, text: string): string =>
  readTable(doc, 'questions').find((question) => question.text === text)?.id ?? ''
const stateOf = ({ doc }: LightClient, text: string) =>
  readTable(doc, 'questions').find((one) => one.text === text)?.state

describe('[G14] two moderators', () => {
  it('who call at once leave one question called, and the second is told', async () => {
    const join = await openFloor()
    const [one, two] = await Promise.all([join('mod-one', 'moderator'), join('mod-two', 'moderator')])
    for (const text of ['First?', 'Second?']) await one.attempt(asking('mod-one', text))
    await two.until(() => readTable(two.doc, 'questions').length === 2)
    const answers = await Promise.all([
      one.attempt((doc) => callQuestion(doc, penOf('mod-one'), idOf(one, 'First?'))),
      two.attempt((doc) => callQuestion(doc, penOf('mod-two'), idOf(two, 'Second?'))),
    ])
    const refused = answers.filter((answer) => answer !== 'stored')
    expect(refused).toEqual([expect.objectContaining({ code: 'second-called-question' })])
    await Promise.all([one.ask(), two.ask()])
    const called = readTable(one.doc, 'questions').filter(({ state }) => state === 'called')
    expect(called).toHaveLength(1)
    expect(readTable(two.doc, 'questions').filter(({ state }) => state === 'called')).toEqual(called)
  })

  it('of whom one joins a question while the other calls it leave it in one of both states', async () => {
    const join = await openFloor()
    const [one, two] = await Promise.all([join('mod-one', 'moderator'), join('mod-two', 'moderator')])
    for (const text of ['First?', 'Second?']) await one.attempt(asking('mod-one', text))
    await two.until(() => readTable(two.doc, 'questions').length === 2)
    const answers = await Promise.all([
      one.attempt((doc) => foldQuestion(doc, penOf('mod-one'), idOf(one, 'Second?'), idOf(one, 'First?'))),
      two.attempt((doc) => callQuestion(doc, penOf('mod-two'), idOf(two, 'Second?'))),
    ])
    expect(answers.filter((answer) => answer !== 'stored')).toEqual([
      expect.objectContaining({ code: 'folded-and-called' }),
    ])
  })
})

describe('[G14] a question', () => {
  it('is withdrawn by its asker while it waits by itself, and by nobody else', async () => {
    const join = await openFloor()
    const [mod, asker, other] = await Promise.all([
      join('mod', 'moderator'),
      join('asker', 'panel'),
      join('other', 'panel'),
    ])
    for (const text of ['Waits?', 'Called?', 'Joined?', 'Stands?']) await asker.attempt(asking('asker', text))
    await mod.until(() => readTable(mod.doc, 'questions').length === 4)
    await mod.attempt((doc) => callQuestion(doc, penOf('mod'), idOf(mod, 'Called?')))
    await mod.attempt((doc) => foldQuestion(doc, penOf('mod'), idOf(mod, 'Joined?'), idOf(mod, 'Stands?')))
    await Promise.all([asker.ask(), other.ask()])
    const withdraw = (client: LightClient, text: string) =>
      client.attempt((doc) => withdrawQuestion(doc, idOf(client, text)))
    expect(await withdraw(other, 'Waits?')).toMatchObject({ code: 'not-permitted' })
    for (const text of ['Called?', 'Joined?', 'Stands?'])
      expect([text, await withdraw(asker, text)]).toEqual([text, expect.objectContaining({ code: 'not-waiting' })])
    expect(await withdraw(asker, 'Waits?')).toBe('stored')
    await mod.ask()
    expect(stateOf(mod, 'Waits?')).toBeUndefined()
  })
})

describe('[R9] the pace of the panel', () => {
  it('lets a person ask as fast as they can type, tells a script how long to wait, and bounds nobody else', async () => {
    const join = await openFloor()
    const [script, second, mod] = await Promise.all([
      join('script', 'panel'),
      join('script', 'panel'),
      join('mod', 'moderator'),
    ])
    const { burst } = paceLimits.questions
    for (let n = 0; n < burst; n++) expect(await script.attempt(asking('script', `Question ${n}?`))).toBe('stored')
    // Over all pages of a person: a second one gives nothing more.
    const answer = await second.attempt(asking('script', 'One more?'))
    expect(answer).toMatchObject({ code: 'too-often', facts: { kind: 'questions', waitSeconds: expect.any(Number) } })
    for (let n = 0; n < burst + 5; n++) expect(await mod.attempt(asking('mod', `Mod ${n}?`))).toBe('stored')
    const person = await join('person', 'panel')
    expect(await person.attempt(asking('person', 'And I?'))).toBe('stored')
    // What is bounded is asking: the same person backs all the same.
    await script.ask()
    const id = idOf(script, 'And I?')
    expect(await script.attempt((doc) => toggleBacking(doc, penOf('script'), id))).toBe('stored')
  })

  const raised = (count: number) =>
    Array.from({ length: count }, (_, n) => {
      const record = sampleRecord('questions', sampleId('questions', 'p', String(n)), 'p')
      return { kind: 'questions' as const, id: record.id as string, after: record as never }
    })

  it('takes what was written during an outage at once and on credit, and gives it back with time', () => {
    const pace = new Pace()
    const { burst, perMinute, atOnce } = paceLimits.questions
    expect(pace.refusalOf('p', raised(atOnce), 0)).toBeUndefined()
    const waitSeconds = Math.ceil(((atOnce - burst + 1) / perMinute) * 60)
    expect(pace.refusalOf('p', raised(1), 0)).toMatchObject({ code: 'too-often', facts: { waitSeconds } })
    expect(pace.refusalOf('p', raised(1), (waitSeconds - 1) * 1000)).toBeDefined()
    expect(pace.refusalOf('p', raised(1), waitSeconds * 1000)).toBeUndefined()
    expect(pace.refusalOf('q', raised(atOnce + 1), 0)).toMatchObject({ code: 'too-often' })
  })
})
