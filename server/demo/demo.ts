import type { Demo } from '../serve.ts'
import { canalCase } from './canal-case.ts'
import { cavityCase } from './cavity-case.ts'
import { everybody } from './people.ts'

/** A programme of two invented cases, for trying the board. */
export const demo: Demo = {
  programme: 'demo',
  seed: async (store, now) => {
    await store.createProgramme({
      id: 'demo',
      label: 'Demonstration day (invented cases)',
      createdAt: now.toISOString(),
    })
    for (const { id, name, affiliation } of everybody)
      await store.createParticipant({ id, name, affiliation, createdAt: now.toISOString() })
    await cavityCase(now).store(store, { programme: 'demo', label: 'Heron', rank: 'a0' })
    await canalCase(now).store(store, { programme: 'demo', label: 'Plover', rank: 'a1' })
  },
}
