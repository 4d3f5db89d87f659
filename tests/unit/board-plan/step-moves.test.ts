import { expect, test } from 'vitest'
import { minutesOf, movesOf, stateByKey } from '../../../app/board/steps/step-moves.ts'
import { StepState } from '../../../lib/board/records/operative-step.ts'
import { recordKinds } from '../../../lib/board/records.ts'

test.each(StepState.options)('every move offered for a step %s stands in the table of rights', (state) => {
  const allowed = Object.keys(recordKinds.steps.moves)
  expect(movesOf({ state }).length).toBeGreaterThan(0)
  for (const { to } of movesOf({ state })) expect(allowed).toContain(`${state}>${to}`)
})

test('one key begins a step and then finishes it', () => {
  expect(stateByKey('n', { state: 'ahead' })).toBe('under-way')
  expect(stateByKey('n', { state: 'under-way' })).toBe('done')
  expect(stateByKey('n', { state: 'done' })).toBeUndefined()
})

test('a step that was done or left out goes back', () => {
  expect(stateByKey('b', { state: 'done' })).toBe('ahead')
  expect(stateByKey('b', { state: 'left-out' })).toBe('ahead')
  expect(stateByKey('x', { state: 'left-out' })).toBeUndefined()
})

test('minutes run to the end of the step, or to now while it is under way', () => {
  const startedAt = '2026-05-04T09:00:00.000Z'
  const now = new Date('2026-05-04T09:12:59.000Z')
  expect(minutesOf({ startedAt }, now)).toBe(12)
  expect(minutesOf({ startedAt, endedAt: '2026-05-04T09:05:00.000Z' }, now)).toBe(5)
  expect(minutesOf({}, now)).toBeUndefined()
})

test('a clock that runs behind never makes minutes negative', () => {
  expect(minutesOf({ startedAt: '2026-05-04T09:00:30.000Z' }, new Date('2026-05-04T09:00:00.000Z'))).toBe(0)
})
