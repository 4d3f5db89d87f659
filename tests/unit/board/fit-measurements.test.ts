import { expect, it } from 'vitest'
import * as Y from 'yjs'
import { changeFitMeasurement, measureFit, removeFitMeasurement } from '../../../lib/board/edits/forecast.ts'
import { parseRecord } from '../../../lib/board/judge.ts'
import { mostValues, readRaw } from '../../../lib/board/layout.ts'
import { readTable } from '../../../lib/board/reading.ts'
import { sampleRecord } from '../../support/sample-records.ts'

let made = 0
const pen = { participant: 'p-team', now: () => new Date('2026-05-04T09:00:00.000Z'), newId: () => `fit-${++made}` }
const niche = {
  ear: 'right',
  place: 'round-window-niche',
  distanceMm: 2.1,
  imaging: 'multislice-ct',
  voxelMm: 0.3,
  sliceSpacingMm: 0.6,
  direction: 'oblique',
  remark: '',
} as const

it('a distance is corrected field by field, and goes', () => {
  const doc = new Y.Doc()
  const id = measureFit(doc, pen, niche)
  changeFitMeasurement(doc, id, { distanceMm: 1.9, sliceSpacingMm: undefined })
  const [measured] = readTable(doc, 'fitMeasurements')
  expect(measured).toMatchObject({ distanceMm: 1.9, place: 'round-window-niche', author: 'p-team' })
  expect(measured).not.toHaveProperty('sliceSpacingMm')
  removeFitMeasurement(doc, id)
  expect(readTable(doc, 'fitMeasurements')).toEqual([])
})

const plan = sampleRecord('plan', 'only', 'p-team')
const parsed = (patch: Record<string, unknown>) => parseRecord('plan', 'only', { ...plan, ...patch })

it('a list of a million entries is one fault, found before a schema looks at any', () => {
  const doc = new Y.Doc()
  doc.getMap('plan').set('only', new Y.Map([...Object.entries(plan), ['earChanges', new Array(1_000_000).fill(0)]]))
  expect(() => readRaw(doc, 'plan', 'only')).toThrow(`a record holds at most ${mostValues} values`)
})

it('a complaint never quotes all that was sent', () => {
  const keys = Object.fromEntries(Array.from({ length: 10_000 }, (_, index) => [`key${index}`, 0]))
  const answer = parsed(keys)
  if (answer.ok || answer.refused.code !== 'invalid-record') throw new TypeError('the plan was taken')
  expect(answer.refused.facts.problem.length).toBeLessThanOrEqual(300)
})
