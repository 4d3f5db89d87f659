import { expect, it } from 'vitest'
import type { Hub } from '../../../server/room/hub.ts'
import type { Store, StoredCase } from '../../../server/store/store.ts'
import { createUnnamed, mostUnnamedEach } from '../../../server/unnamed/unnamed.ts'

it('one person fills no store with questions without a name, refused or not', async () => {
  const row = { author: 'unnamed-x', participant: 'p-script', pictureAt: null }
  // Neither has what is needed to write: an attempt to do so throws.
  const store = {
    listUnnamed: async () => Array.from({ length: mostUnnamedEach }, () => row),
  } as unknown as Store
  const unnamed = createUnnamed({ store, hub: {} as Hub, now: () => new Date() })
  const place = { id: 'heron' } as StoredCase
  expect(await unnamed.ask(place, { participant: 'p-script', role: 'panel' }, { text: 'Again?' })).toMatchObject({
    code: 'too-many',
    facts: { kind: 'questions', most: mostUnnamedEach },
  })
  await expect(
    unnamed.ask(place, { participant: 'p-other', role: 'panel' }, { text: 'Which?' }),
  ).rejects.toBeInstanceOf(TypeError)
})
