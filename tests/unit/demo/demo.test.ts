import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { documentName } from '../../../lib/board/documents.ts'
import { ContingencyState } from '../../../lib/board/records/contingency.ts'
import { TestState } from '../../../lib/board/records/hearing-test.ts'
import { QuestionState } from '../../../lib/board/records/question.ts'
import { kindsIn } from '../../../lib/board/records.ts'
import { demo } from '../../../server/demo/demo.ts'
import { everybody } from '../../../server/demo/people.ts'
import { Proposal } from '../../../server/guard/proposal.ts'
import { openSqliteStore } from '../../../server/store/sqlite-store.ts'
import type { Store } from '../../../server/store/store.ts'

let store: Store
let folder: string
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'promontory-demo-'))
  store = await openSqliteStore(join(folder, 'board.sqlite'))
  await demo.seed(store, new Date('2026-05-04T10:00:00.000Z'))
})
afterAll(async () => {
  await store.close()
  await rm(folder, { recursive: true, force: true })
})

const tablesOf = async (kind: 'record' | 'floor', caseId: string) =>
  new Proposal(
    kind,
    (await store.load(documentName(kind, caseId))).updates.map(({ update }) => update),
  ).tables

describe('the demo', () => {
  it('shows two cases with their columns', async () => {
    expect(await store.listCases()).toMatchObject([
      {
        id: 'demo-heron',
        phase: 'in-theatre',
        ear: 'right',
        deviceClass: 'active-middle-ear-implant',
        openQuestions: 3,
      },
      { id: 'demo-plover', phase: 'planning', ear: 'left', contingenciesMet: 1 },
    ])
  })

  it.each(['demo-heron', 'demo-plover'])(
    '%s has records of every kind, a superseded and an erroneous test',
    async (caseId) => {
      const record = await tablesOf('record', caseId)
      const floor = await tablesOf('floor', caseId)
      for (const kind of kindsIn('record')) expect([kind, record.count(kind) > 0]).toEqual([kind, true])
      for (const kind of kindsIn('floor')) expect([kind, floor.count(kind) > 0]).toEqual([kind, true])
      expect(new Set([...record.values('tests')].map(({ state }) => state))).toEqual(new Set(TestState.options))
    },
  )

  it('has questions in every state', async () => {
    const floor = await tablesOf('floor', 'demo-heron')
    expect(new Set([...floor.values('questions')].map(({ state }) => state))).toEqual(new Set(QuestionState.options))
  })

  it('names everybody who wrote in it', async () => {
    const authors = (await store.listAuthors('demo-heron')).map(({ participant }) => participant.name)
    expect(authors.sort()).toEqual(everybody.map(({ name }) => name).sort())
  })

  it('has contingencies that are watched, met and stood down', async () => {
    const both = await Promise.all(['demo-heron', 'demo-plover'].map((caseId) => tablesOf('record', caseId)))
    const states = new Set(both.flatMap((tables) => [...tables.values('contingencies')].map(({ state }) => state)))
    expect([...states].sort()).toEqual(ContingencyState.options.filter((state) => state !== 'acted-on').sort())
  })
})
