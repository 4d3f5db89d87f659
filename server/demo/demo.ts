import type { Demo } from '../serve.ts'
import { canalCase } from './canal-case.ts'
import { cavityCase } from './cavity-case.ts'
import { courseCase } from './course-case.ts'
import { everybody } from './people.ts'

/** A programme of two invented cases for trying the board, and one of a case that is followed up. */
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
    await store.createProgramme({
      id: 'demo-clinic',
      label: 'Follow-up clinic (invented cases)',
      createdAt: now.toISOString(),
    })
    await courseCase(now).store(store, { programme: 'demo-clinic', label: 'Curlew', rank: 'a0' })
    const hourMs = 3_600_000
    const hour = (later: number) => new Date((Math.floor(now.getTime() / hourMs) + later) * hourMs).toISOString()
    await store.saveSlot('demo-heron', { plannedAt: hour(1), breakBefore: '' })
    await store.saveSlot('demo-plover', { plannedAt: hour(3), breakBefore: 'Coffee' })
  },
}
