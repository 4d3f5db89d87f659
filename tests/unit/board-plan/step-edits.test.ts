import { expect, test } from 'vitest'
import * as Y from 'yjs'
import { usualSteps as english } from '../../../app/messages/en/usual-steps.ts'
import { usualSteps as french } from '../../../app/messages/fr/usual-steps.ts'
import { addContingency, addStep, moveStep, startNote } from '../../../lib/board/edits/decisions.ts'
import {
  addTypicalSteps,
  fileUnderStep,
  moveStepDespite,
  moveStepOn,
  removeStep,
  rewordStep,
  shiftStep,
} from '../../../lib/board/edits/steps.ts'
import type { Pen } from '../../../lib/board/edits/writing.ts'
import { approachNames, typicalSteps, usualStepNames } from '../../../lib/board/operative-steps.ts'
import { byRank, readRecord, readTable } from '../../../lib/board/reading.ts'
import { OperativeStep } from '../../../lib/board/records/operative-step.ts'

let made = 0
const pen: Pen = {
  participant: 'ada',
  now: () => new Date(Date.UTC(2026, 4, 4, 9)),
  newId: () => `step-${++made}`,
}
const words = (title: string) => ({ title, check: '', hazard: '' })
const titles = (doc: Y.Doc) =>
  readTable(doc, 'steps')
    .sort(byRank)
    .map((step) => step.title)
const stepOf = (doc: Y.Doc, id: string): OperativeStep => {
  const step = readRecord(doc, 'steps', id)
  if (step === undefined) throw new Error(`no step ${id}`)
  return step
}

test.each(approachNames)('every usual step of %s is a valid step in both languages, once in the list', (approach) => {
  for (const texts of [english, french]) {
    const doc = new Y.Doc()
    addTypicalSteps(doc, pen, approach, texts)
    const steps = [...doc.getMap<Y.Map<unknown>>('steps').values()].map((step) => OperativeStep.parse(step.toJSON()))
    expect(steps).toHaveLength(typicalSteps(approach).length)
    expect(new Set(steps.map((step) => step.title)).size).toBe(steps.length)
  }
})

test.each(approachNames)('each usual step of %s but the first needs steps that stand before it', (approach) => {
  const doc = new Y.Doc()
  addTypicalSteps(doc, pen, approach, english)
  const steps = readTable(doc, 'steps').sort(byRank)
  const ids = steps.map(({ id }) => id)
  steps.forEach(({ needs = [] }, place) => {
    expect(needs.length > 0).toBe(place > 0)
    for (const need of needs) expect(ids.slice(0, place)).toContain(need)
  })
})

test('every usual step is in an approach', () => {
  expect(new Set(approachNames.flatMap((approach) => typicalSteps(approach).map(({ name }) => name)))).toEqual(
    new Set(usualStepNames),
  )
})

test('prerequisites are those of the list of operative steps, as far as an approach has them', () => {
  const needsIn = (approach: (typeof approachNames)[number], step: string) =>
    typicalSteps(approach).find(({ name }) => name === step)?.needs
  expect(needsIn('posterior-tympanotomy', 'posteriorTympanotomy')).toEqual(['mastoidectomy', 'antrotomy'])
  expect(needsIn('round-window', 'actuator')).toEqual(['ossicles', 'fixation', 'implant', 'windowNiche'])
  expect(needsIn('transcanal', 'ossicles')).toEqual(['transcanal'])
  expect(needsIn('skull', 'coagulation')).toEqual(['skullBed'])
  // Without a mastoidectomy the bed of the implant needs what that one would have needed.
  expect(needsIn('transcanal', 'bed')).toEqual(['incision'])
})

test('usual steps follow the steps that stand already, in their order', () => {
  const doc = new Y.Doc()
  addStep(doc, pen, words('Own first step'))
  addTypicalSteps(doc, pen, 'skull', english)
  expect(titles(doc)).toEqual(['Own first step', ...typicalSteps('skull').map(({ name }) => english[name].title)])
})

test('a step moves up and down by one place and stays at the ends', () => {
  const doc = new Y.Doc()
  const [first, second] = ['one', 'two', 'three'].map((title) => addStep(doc, pen, words(title)))
  if (first === undefined || second === undefined) throw new Error('expected two steps')
  shiftStep(doc, second, -1)
  expect(titles(doc)).toEqual(['two', 'one', 'three'])
  shiftStep(doc, second, -1)
  shiftStep(doc, first, 1)
  expect(titles(doc)).toEqual(['two', 'three', 'one'])
})

test('words and prerequisites change without touching the other fields', () => {
  const doc = new Y.Doc()
  const first = addStep(doc, pen, words('zero'))
  const id = addStep(doc, pen, { title: 'one', check: 'look', hazard: 'dura' })
  rewordStep(doc, id, { check: 'look twice', needs: [first] })
  expect(stepOf(doc, id)).toMatchObject({ title: 'one', check: 'look twice', hazard: 'dura', needs: [first] })
})

test('a step that is removed leaves the prerequisites of the others', () => {
  const doc = new Y.Doc()
  const first = addStep(doc, pen, words('one'))
  const second = addStep(doc, pen, words('two'), [first])
  const third = addStep(doc, pen, words('three'), [first, second])
  removeStep(doc, first)
  expect([stepOf(doc, second).needs, stepOf(doc, third).needs]).toEqual([[], [second]])
})

test('going on without a prerequisite is recorded with its reason, in the same edit', () => {
  const doc = new Y.Doc()
  const first = addStep(doc, pen, words('one'))
  const second = addStep(doc, pen, words('two'), [first])
  let edits = 0
  doc.on('afterTransaction', () => edits++)
  moveStepDespite(doc, pen, stepOf(doc, second), 'under-way', [first], 'done in the old cavity')
  expect(edits).toBe(1)
  expect(stepOf(doc, second).state).toBe('under-way')
  expect(readTable(doc, 'stepExceptions')).toMatchObject([
    { step: second, need: first, author: 'ada', reason: 'done in the old cavity' },
  ])
})

test('a step that is opened again is told of at those that were begun after it, once', () => {
  const doc = new Y.Doc()
  const first = addStep(doc, pen, words('one'))
  const second = addStep(doc, pen, words('two'), [first])
  const third = addStep(doc, pen, words('three'), [first])
  moveStepOn(doc, pen, stepOf(doc, first), 'done', 'opened again')
  moveStepOn(doc, pen, stepOf(doc, second), 'under-way', 'opened again')
  expect(readTable(doc, 'stepExceptions')).toEqual([])
  moveStepOn(doc, pen, stepOf(doc, first), 'ahead', 'opened again')
  moveStepOn(doc, pen, stepOf(doc, first), 'done', 'opened again')
  moveStepOn(doc, pen, stepOf(doc, first), 'under-way', 'opened again')
  expect(readTable(doc, 'stepExceptions')).toMatchObject([{ step: second, need: first, reason: 'opened again' }])
  expect(stepOf(doc, third).state).toBe('ahead')
})

test('what is written while a step is under way belongs to it, until somebody files it elsewhere', () => {
  const doc = new Y.Doc()
  const before = startNote(doc, pen, 'finding')
  const step = addStep(doc, pen, words('one'))
  moveStep(doc, pen, stepOf(doc, step), 'under-way')
  const note = startNote(doc, pen, 'decision')
  const contingency = addContingency(doc, pen, { kind: 'found', finding: 'fixed' }, 'stage')
  expect([before, note].map((id) => readRecord(doc, 'notes', id)?.step)).toEqual([undefined, step])
  expect(readRecord(doc, 'contingencies', contingency)?.step).toBe(step)
  fileUnderStep(doc, 'notes', before, step)
  fileUnderStep(doc, 'contingencies', contingency, undefined)
  expect(readRecord(doc, 'notes', before)?.step).toBe(step)
  expect(readRecord(doc, 'contingencies', contingency)).not.toHaveProperty('step')
})
