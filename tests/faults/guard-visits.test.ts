import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest'
import * as Y from 'yjs'
import { documentName } from '../../lib/board/documents.ts'
import { actOnContingency, moveContingency } from '../../lib/board/edits/decisions.ts'
import {
  addVisit,
  addVisitItem,
  fileTest,
  holdVisit,
  moveVisit,
  setOperationDay,
} from '../../lib/board/edits/visits.ts'
import { type Pen, putRecord, recordMap, removeRecord } from '../../lib/board/edits/writing.ts'
import type { KindName } from '../../lib/board/records.ts'
import { daysLater } from '../../lib/board/visit-plan.ts'
import { LightClient } from '../support/light-client.ts'
import { sampleRecord } from '../support/sample-records.ts'
import { type SyncServer, startSyncServer } from '../support/sync-server.ts'

/** G13: a visit lies after the operation and was not held before its day; what belongs to it names it. Over a real socket. */
let server: SyncServer
let cases = 0
const clients: LightClient[] = []
const now = () => new Date().toISOString()
const today = now().slice(0, 10)
const operatedOn = daysLater(today, -100)

let made = 0
const pen: Pen = { participant: 'p-team', now: () => new Date(), newId: () => `made-${++made}` }

beforeAll(async () => {
  server = await startSyncServer()
  await server.store.createProgramme({ id: 'programme', label: 'Programme', createdAt: now() })
})
afterAll(() => server.stop())
beforeEach(() => {
  for (const client of clients.splice(0)) client.close()
})

type Seed = readonly [KindName, string, Record<string, unknown>]
const header = (parts: Record<string, unknown> = { operatedOn }): Seed => ['header', 'only', parts]
const planned: Seed = ['visits', 'planned', { plannedOn: today }]
const watched: Seed = ['contingencies', 'watched', {}]
const test = (performedOn: string): Seed => ['tests', 'test', { performedOn }]

/** A team member of a case with these records, each a sample with some fields replaced. */
async function join(...seeds: readonly Seed[]): Promise<LightClient> {
  const caseId = `visits-${++cases}`
  const place = { id: caseId, programme: 'programme', label: caseId, rank: `a${cases}`, createdAt: now() }
  await server.store.createCase(place)
  const seeded = new Y.Doc()
  for (const [kind, id, parts] of seeds)
    putRecord(seeded, kind, { ...sampleRecord(kind, id, 'p-third', now()), ...parts } as never)
  await server.seed(documentName('record', caseId), seeded)
  const client = await LightClient.join(
    `${server.url}/sync/${documentName('record', caseId)}?own=1&as=p-team&role=team`,
  )
  clients.push(client)
  return client
}

describe('[G13] the day of a visit', () => {
  it('is taken from the operation until today', async () => {
    const client = await join(header(), planned)
    for (const day of [operatedOn, daysLater(today, -1), today])
      expect([day, await client.attempt((doc) => holdVisit(doc, pen, 'planned', day))]).toEqual([day, 'stored'])
  })

  it('is refused before the operation', async () => {
    const client = await join(header(), planned)
    const day = daysLater(operatedOn, -1)
    expect(await client.attempt((doc) => holdVisit(doc, pen, 'planned', day))).toMatchObject({
      code: 'before-operation',
      facts: { day, operated: operatedOn },
    })
    const plannedBefore = await join(header())
    const visit = { occasion: 'first-fitting', plannedOn: day } as const
    expect(await plannedBefore.attempt((doc) => addVisit(doc, pen, visit))).toMatchObject({ code: 'before-operation' })
  })

  it('is refused while the case has no operation, and planning ahead is not', async () => {
    const client = await join(header({ phase: 'planning' }), planned)
    expect(await client.attempt((doc) => holdVisit(doc, pen, 'planned', today))).toMatchObject({
      code: 'visit-without-operation',
    })
    const another = await join(header({ phase: 'planning' }))
    const visit = { occasion: 'first-fitting', plannedOn: daysLater(today, 60) } as const
    expect(await another.attempt((doc) => addVisit(doc, pen, visit))).toBe('stored')
  })

  it('is refused in the future, whatever the clock of the writer says', async () => {
    const day = daysLater(today, 2)
    const client = await join(header(), planned)
    expect(await client.attempt((doc) => holdVisit(doc, pen, 'planned', day))).toMatchObject({
      code: 'visit-in-future',
      facts: { day },
    })
    const fast: Pen = { ...pen, now: () => new Date(`${day}T12:00:00.000Z`) }
    const another = await join(header(), planned)
    expect(await another.attempt((doc) => holdVisit(doc, fast, 'planned', day))).toMatchObject({ code: 'wrong-time' })
  })

  it('holds the day of the operation too: over, and not after a visit', async () => {
    const held: Seed = [
      'visits',
      'planned',
      { state: 'held', held: { by: 'p-third', at: now(), on: daysLater(today, -50) } },
    ]
    const client = await join(header(), held)
    const name = (day: string) => (doc: Y.Doc) => setOperationDay(doc, pen, day)
    expect(await client.attempt(name(daysLater(today, -50)))).toBe('stored')
    expect(await client.attempt(name(daysLater(today, -49)))).toMatchObject({
      code: 'operation-after-visit',
      facts: { visit: daysLater(today, -50) },
    })
    const another = await join(header())
    expect(await another.attempt(name(daysLater(today, 2)))).toMatchObject({ code: 'operation-in-future' })
  })

  it('follows the first step where nobody named the day of the operation', async () => {
    const begun: Seed = ['steps', 'step', { state: 'under-way', startedAt: `${operatedOn}T08:00:00.000Z` }]
    const client = await join(header({ phase: 'follow-up' }), begun, planned)
    const day = daysLater(operatedOn, -1)
    expect(await client.attempt((doc) => holdVisit(doc, pen, 'planned', day))).toMatchObject({
      code: 'before-operation',
    })
  })
})

describe('[G13] the plan of visits', () => {
  it('has each occasion once, unless the other one is called off', async () => {
    const visit = { occasion: '6-months', plannedOn: daysLater(today, 10) } as const
    const client = await join(header(), planned)
    expect(await client.attempt((doc) => addVisit(doc, pen, visit))).toMatchObject({ code: 'second-visit' })
    const another = await join(header(), planned)
    expect(await another.attempt((doc) => moveVisit(doc, 'planned', 'called-off'))).toBe('stored')
    expect(await another.attempt((doc) => addVisit(doc, pen, visit))).toBe('stored')
    expect(await another.attempt((doc) => moveVisit(doc, 'planned', 'planned'))).toMatchObject({ code: 'second-visit' })
  })

  it('keeps every visit', async () => {
    const client = await join(header(), planned)
    expect(await client.attempt((doc) => removeRecord(doc, 'visits', 'planned'))).toMatchObject({
      code: 'not-permitted',
    })
  })

  it('knows complications of its list alone', async () => {
    const client = await join(header(), planned)
    const edit = (doc: Y.Doc) =>
      (recordMap(doc, 'visits', 'planned').get('complications') as Y.Map<unknown>).set('bad luck', {
        course: 'new',
        words: '',
      })
    expect(await client.attempt(edit)).toMatchObject({ code: 'invalid-record' })
  })
})

describe('[G13] what belongs to a visit', () => {
  it('is a test made after the operation, also once it is verified', async () => {
    const verified: Seed = ['tests', 'test', { performedOn: today, verification: { by: 'p-third', at: now() } }]
    const client = await join(header(), planned, verified)
    expect(await client.attempt((doc) => fileTest(doc, 'tests', 'test', 'planned'))).toBe('stored')
    const early = await join(header(), planned, test(daysLater(operatedOn, -1)))
    expect(await early.attempt((doc) => fileTest(doc, 'tests', 'test', 'planned'))).toMatchObject({
      code: 'before-operation',
    })
  })

  it('names a visit of this case', async () => {
    const item = { visit: 'elsewhere', words: 'Look at the graft' }
    const client = await join(header(), test(today))
    expect(await client.attempt((doc) => fileTest(doc, 'tests', 'test', 'elsewhere'))).toMatchObject({
      code: 'missing-reference',
    })
    const another = await join(header())
    expect(await another.attempt((doc) => addVisitItem(doc, pen, item))).toMatchObject({ code: 'missing-reference' })
  })
})

describe('[G13] a contingency', () => {
  it('is acted on once it is met, with what was done and where it leads', async () => {
    const client = await join(header(), planned, watched)
    expect(await client.attempt((doc) => moveContingency(doc, pen, 'watched', 'met', 'seen', 'planned'))).toBe('stored')
    expect(
      await client.attempt((doc) =>
        actOnContingency(doc, pen, 'watched', 'Revised to the stapes', { kind: 'visits', id: 'planned' }),
      ),
    ).toBe('stored')
    expect(await client.attempt((doc) => moveContingency(doc, pen, 'watched', 'watching', 'again'))).toBe('stored')
  })

  it('leads to something on this board, and not to itself', async () => {
    for (const next of [
      { kind: 'notes', id: 'elsewhere' },
      { kind: 'contingencies', id: 'watched' },
    ] as const) {
      const client = await join(header(), ['contingencies', 'watched', { state: 'met' }])
      expect(await client.attempt((doc) => actOnContingency(doc, pen, 'watched', 'Revised', next))).toMatchObject({
        code: 'missing-reference',
      })
    }
  })

  it('names a visit of this case', async () => {
    const client = await join(header(), watched)
    expect(
      await client.attempt((doc) => moveContingency(doc, pen, 'watched', 'met', 'seen', 'elsewhere')),
    ).toMatchObject({ code: 'missing-reference' })
  })
})
