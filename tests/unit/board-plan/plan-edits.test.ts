import { expect, test } from 'vitest'
import * as Y from 'yjs'
import { changePlan } from '../../../lib/board/edits/plan.ts'
import type { Pen } from '../../../lib/board/edits/writing.ts'
import { onlyId } from '../../../lib/board/identity.ts'
import { readRecord } from '../../../lib/board/reading.ts'

const penOf = (participant: string): Pen => ({
  participant,
  now: () => new Date(Date.UTC(2026, 4, 4, 9)),
  newId: () => `made-by-${participant}`,
})
const ada = penOf('ada')
const ben = penOf('ben')
const planIn = (doc: Y.Doc) => readRecord(doc, 'plan', onlyId)

test('the first edit begins a plan for the ear of the case', () => {
  const doc = new Y.Doc()
  changePlan(doc, ada, 'left', { aim: 'Close the gap' })
  expect(planIn(doc)).toMatchObject({ ear: 'left', incus: 'not-known', aim: 'Close the gap', author: 'ada' })
})

test('two people who change different fields at once keep both', () => {
  const one = new Y.Doc()
  changePlan(one, ada, 'right', { deviceClass: 'active-middle-ear-implant' })
  const two = new Y.Doc()
  Y.applyUpdate(two, Y.encodeStateAsUpdate(one))
  changePlan(one, ada, 'right', { couplingSite: 'round-window' })
  changePlan(two, ben, 'right', { incus: 'missing' })
  Y.applyUpdate(one, Y.encodeStateAsUpdate(two))
  Y.applyUpdate(two, Y.encodeStateAsUpdate(one))
  expect(planIn(one)).toMatchObject({ couplingSite: 'round-window', incus: 'missing' })
  expect(planIn(two)).toEqual(planIn(one))
})

test('a device class that does not couple at the site takes the site away', () => {
  const doc = new Y.Doc()
  changePlan(doc, ada, 'right', { deviceClass: 'active-middle-ear-implant', couplingSite: 'round-window' })
  changePlan(doc, ada, 'right', { deviceClass: undefined })
  expect(planIn(doc)).not.toHaveProperty('couplingSite')
})

test('a device class with a single site brings it along', () => {
  const doc = new Y.Doc()
  changePlan(doc, ada, 'right', { deviceClass: 'active-middle-ear-implant', couplingSite: 'round-window' })
  changePlan(doc, ada, 'right', { deviceClass: 'percutaneous-bone-anchored' })
  expect(planIn(doc)).toMatchObject({ deviceClass: 'percutaneous-bone-anchored', couplingSite: 'skull' })
})

test('what is known of the ear canal stays when something else changes, and is taken away by undefined', () => {
  const doc = new Y.Doc()
  changePlan(doc, ada, 'right', { earCanal: 'atresia' })
  changePlan(doc, ada, 'right', { incus: 'fixed' })
  expect(planIn(doc)).toMatchObject({ earCanal: 'atresia', incus: 'fixed' })
  changePlan(doc, ada, 'right', { earCanal: undefined })
  expect(planIn(doc)).not.toHaveProperty('earCanal')
})

test('changes of the ear are taken away by undefined, and by a list without any', () => {
  const doc = new Y.Doc()
  for (const none of [undefined, []]) {
    changePlan(doc, ada, 'right', { earChanges: [{ kind: 'ligament-fixed', ligament: 'malleus' }] })
    expect(planIn(doc)?.earChanges).toHaveLength(1)
    changePlan(doc, ada, 'right', { earChanges: none })
    expect(planIn(doc)).not.toHaveProperty('earChanges')
  }
})
