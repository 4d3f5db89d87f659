import { expect, test } from 'vitest'
import * as Y from 'yjs'
import { addStep } from '../../../lib/board/edits/decisions.ts'
import { addTypicalSteps, rewordStep, shiftStep } from '../../../lib/board/edits/steps.ts'
import type { Pen } from '../../../lib/board/edits/writing.ts'
import { approachNames, typicalSteps } from '../../../lib/board/operative-steps.ts'
import { byRank, readTable } from '../../../lib/board/reading.ts'
import { OperativeStep } from '../../../lib/board/records/operative-step.ts'

let made = 0
const pen: Pen = {
  participant: 'ada',
  now: () => new Date(Date.UTC(2026, 4, 4, 9)),
  newId: () => `step-${++made}`,
}
const titles = (doc: Y.Doc) =>
  readTable(doc, 'steps')
    .sort(byRank)
    .map((step) => step.title)

test.each(approachNames)('every usual step of %s is a valid step, once in the list', (approach) => {
  const steps = typicalSteps(approach)
  for (const step of steps) {
    const record = { ...step, id: 's', author: 'ada', at: pen.now().toISOString(), rank: 'a0', state: 'ahead' }
    expect(OperativeStep.safeParse(record).success).toBe(true)
  }
  expect(new Set(steps.map((step) => step.title)).size).toBe(steps.length)
})

test('usual steps follow the steps that stand already, in their order', () => {
  const doc = new Y.Doc()
  addStep(doc, pen, { title: 'Own first step', check: '', hazard: '' })
  addTypicalSteps(doc, pen, 'skull')
  expect(titles(doc)).toEqual(['Own first step', ...typicalSteps('skull').map((step) => step.title)])
})

test('a step moves up and down by one place and stays at the ends', () => {
  const doc = new Y.Doc()
  const [first, second] = ['one', 'two', 'three'].map((title) => addStep(doc, pen, { title, check: '', hazard: '' }))
  if (first === undefined || second === undefined) throw new Error('expected two steps')
  shiftStep(doc, second, -1)
  expect(titles(doc)).toEqual(['two', 'one', 'three'])
  shiftStep(doc, second, -1)
  shiftStep(doc, first, 1)
  expect(titles(doc)).toEqual(['two', 'three', 'one'])
})

test('words change without touching the other fields', () => {
  const doc = new Y.Doc()
  const id = addStep(doc, pen, { title: 'one', check: 'look', hazard: 'dura' })
  rewordStep(doc, id, { check: 'look twice' })
  expect(readTable(doc, 'steps')).toMatchObject([{ title: 'one', check: 'look twice', hazard: 'dura' }])
})
