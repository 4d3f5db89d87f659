import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { courseCase } from '../../../server/demo/course-case.ts'
import { fillOutcomes } from '../../../server/series/fill-outcomes.ts'
import { openSqliteStore } from '../../../server/store/sqlite-store.ts'
import type { Store } from '../../../server/store/store.ts'
import { makeTemporaryFolder, removeFolder } from '../../support/temporary-folder.ts'

const now = new Date('2026-05-04T10:00:00.000Z')

describe('cases that nobody has edited since there is a series', () => {
  let folder: string
  let store: Store
  beforeEach(async () => {
    folder = await makeTemporaryFolder()
    store = await openSqliteStore(join(folder, 'store.db'))
    await store.createProgramme({ id: 'demo', label: 'Demo', createdAt: now.toISOString() })
  })
  afterEach(async () => {
    await store.close()
    await removeFolder(folder)
  })
  /** As a version without a series left it. */
  const storeWithoutOutcome = async () => {
    await courseCase(now).store(
      { ...store, saveOutcome: async () => undefined },
      { programme: 'demo', label: 'Curlew', rank: 'a0' },
    )
  }

  it('give what an edit would have given', async () => {
    await storeWithoutOutcome()
    expect(await store.outcomesSince(0, 10)).toEqual([])
    await fillOutcomes(store, () => false)
    const [filled] = await store.outcomesSince(0, 10)
    expect(filled).toMatchObject({ patient: 'Curlew', ear: 'left', couplingSite: 'incus-body' })
    expect(filled?.visits.map(({ occasion }) => occasion)).toContain('first-fitting')
    expect(await store.casesWithoutOutcome(10)).toEqual([])
  })

  it('wait for the next start when the server closes', async () => {
    await storeWithoutOutcome()
    await fillOutcomes(store, () => true)
    expect(await store.outcomesSince(0, 10)).toEqual([])
  })
})
