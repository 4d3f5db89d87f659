import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { openPostgresStore } from '../../../server/store/postgres-store.ts'
import { StoreBehind, StoreConflict, StoreOutage } from '../../../server/store/store.ts'
import { TestPostgres } from '../../support/postgres.ts'
import { storeContract } from './store-contract.ts'

let postgres: TestPostgres
beforeAll(async () => {
  postgres = await TestPostgres.start()
})
afterAll(() => postgres.stop())

const update = {
  document: 'record.a',
  update: new Uint8Array([1, 2, 3]),
  author: 'anna',
  role: 'team',
  at: '2026-03-02T08:00:00.000Z',
  clients: [],
} as const

describe('PostgreSQL store', () => {
  storeContract(async () => {
    const url = postgres.urlOf(await postgres.newDatabase())
    return { open: () => openPostgresStore(url), dispose: async () => undefined }
  })
})

describe('one PostgreSQL database under several stores', () => {
  const openBoth = async () => {
    const url = postgres.urlOf(await postgres.newDatabase())
    // At once: both find an empty database and bring up its schema.
    return Promise.all([openPostgresStore(url), openPostgresStore(url)])
  }

  it('[S2] [S9] numbers without gaps what both append, and stores one of two judged on the same', async () => {
    const [one, other] = await openBoth()
    const numbers = await Promise.all(
      Array.from({ length: 60 }, (_, index) => (index % 2 === 0 ? one : other).append([update, update])),
    )
    expect(numbers.flat().sort((a, b) => a - b)).toEqual(Array.from({ length: 120 }, (_, index) => index + 1))
    const outcomes = await Promise.allSettled([one.append([update], 120), other.append([update], 120)])
    expect(outcomes.filter(({ status }) => status === 'fulfilled')).toHaveLength(1)
    for (const outcome of outcomes)
      if (outcome.status === 'rejected') expect(outcome.reason).toBeInstanceOf(StoreBehind)
    await Promise.all([one.close(), other.close()])
  })

  it('[S4] lets a client id belong to one participant, whichever store they use', async () => {
    const [one, other] = await openBoth()
    await one.append([{ ...update, clients: [7] }])
    await expect(other.append([{ ...update, author: 'bo', clients: [7] }])).rejects.toBeInstanceOf(StoreConflict)
    await Promise.all([one.close(), other.close()])
  })

  it('[S8] counts every ballot that was taken while another store closed the vote', async () => {
    const [one, other] = await openBoth()
    const cast = (participant: string) =>
      one.castBallot({ caseId: 'a', vote: 'v', participant, ballot: { option: 0 }, at: update.at })
    await cast('p0')
    const casting = Promise.allSettled(
      Array.from({ length: 40 }, (_, index) => cast(`p${index}`).then(() => `p${index}`)),
    )
    const counted = await other.closeBallots('a', 'v')
    const outcomes = await casting
    const taken = outcomes.flatMap((outcome) => (outcome.status === 'fulfilled' ? [outcome.value] : []))
    expect(counted.map(({ participant }) => participant)).toEqual([...new Set(['p0', ...taken])].sort())
    await Promise.all([one.close(), other.close()])
  })
})

describe('a PostgreSQL database', () => {
  it('is refused when a newer version of the program wrote it', async () => {
    const name = await postgres.newDatabase()
    await (await openPostgresStore(postgres.urlOf(name))).close()
    await postgres.ask(name, 'UPDATE schema_version SET version = 9999')
    await expect(openPostgresStore(postgres.urlOf(name))).rejects.toThrow(/schema version 9999/)
  })

  it('is an outage where there is none, and where nobody listens', async () => {
    await expect(openPostgresStore(postgres.urlOf('nowhere'))).rejects.toBeInstanceOf(StoreOutage)
    await expect(openPostgresStore(postgres.urlOf('nowhere', 1))).rejects.toBeInstanceOf(StoreOutage)
  })

  it('keeps text without the one character that it cannot hold', async () => {
    const store = await openPostgresStore(postgres.urlOf(await postgres.newDatabase()))
    await store.createProgramme({ id: 'day', label: 'Da\0y', createdAt: update.at })
    expect((await store.listProgrammes())[0]?.label).toBe('Day')
    await store.close()
  })
})
