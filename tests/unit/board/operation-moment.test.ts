import { expect, it } from 'vitest'
import { operationMoment } from '../../../lib/board/operation-moment.ts'
import type { OperativeStep } from '../../../lib/board/records/operative-step.ts'

const day = '2026-05-04T'
const step = (rank: string, title: string, startedAt?: string, endedAt?: string): OperativeStep => ({
  id: `step-${rank}`,
  author: 'team',
  at: `${day}07:00:00.000Z`,
  rank,
  title,
  check: '',
  hazard: '',
  state: endedAt !== undefined ? 'done' : startedAt !== undefined ? 'under-way' : 'ahead',
  ...(startedAt === undefined ? {} : { startedAt: `${day}${startedAt}:00.000Z` }),
  ...(endedAt === undefined ? {} : { endedAt: `${day}${endedAt}:00.000Z` }),
})
const steps = [
  step('a2', 'Drill', '09:40'),
  step('a0', 'Incise', '09:00', '09:10'),
  step('a1', 'Expose', '09:10', '09:30'),
  step('a3', 'Couple'),
]
const at = (clock: string) => operationMoment(steps, `${day}${clock}:00.000Z`)

it('names the step that was under way, numbered by the order of the list', () => {
  expect(at('09:05')).toEqual({ kind: 'in-step', number: 1, title: 'Incise' })
  expect(at('09:10')).toEqual({ kind: 'in-step', number: 2, title: 'Expose' })
  expect(at('11:00')).toEqual({ kind: 'in-step', number: 3, title: 'Drill' })
})

it('says what came before where no step was under way', () => {
  expect(at('08:59')).toEqual({ kind: 'before-first' })
  expect(at('09:35')).toEqual({ kind: 'after-step', number: 2, title: 'Expose' })
})

it('takes the later of two steps under way together', () => {
  const together = [step('a0', 'Monitor', '09:00'), step('a1', 'Drill', '09:20')]
  expect(operationMoment(together, `${day}09:30:00.000Z`)).toMatchObject({ title: 'Drill' })
  expect(operationMoment(together, `${day}09:10:00.000Z`)).toMatchObject({ title: 'Monitor' })
})

it('says nothing where no step has begun', () => {
  expect(operationMoment([step('a0', 'Incise')], `${day}09:00:00.000Z`)).toBeUndefined()
})
