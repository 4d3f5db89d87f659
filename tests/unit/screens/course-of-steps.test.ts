import { describe, expect, it } from 'vitest'
import { courseOfSteps } from '../../../app/screen/course-of-steps.ts'
import type { StepState } from '../../../lib/board/records/operative-step.ts'
import { step } from '../../fixtures/board-records.ts'

const course = (...states: StepState[]) =>
  courseOfSteps(states.map((state, index) => step(`s${index + 1}`, { rank: `a${index}`, state })))

/** Which steps stand where, as their numbers. */
const around = ({ previous, current, next, where }: ReturnType<typeof courseOfSteps>) => ({
  where,
  previous: previous?.number,
  current: current?.number,
  next: next?.number,
})

describe('the course of steps', () => {
  it('is without steps when none was written', () => {
    expect(courseOfSteps([])).toEqual({ where: 'no-steps', total: 0 })
  })

  it('has the step before and the next one around the step under way', () => {
    expect(around(course('done', 'done', 'under-way', 'ahead'))).toEqual({
      where: 'in-step',
      previous: 2,
      current: 3,
      next: 4,
    })
  })

  it('stands before the first step until one was begun', () => {
    expect(around(course('ahead', 'ahead'))).toMatchObject({ where: 'not-begun', previous: undefined, next: 1 })
  })

  it('stands between two steps when none is under way', () => {
    expect(around(course('done', 'ahead'))).toMatchObject({ where: 'between', previous: 1, next: 2 })
  })

  it('is finished when nothing is ahead', () => {
    expect(around(course('done', 'left-out'))).toMatchObject({ where: 'finished', previous: 1, next: undefined })
  })

  it('passes over a step that was left out', () => {
    expect(around(course('done', 'left-out', 'under-way', 'left-out', 'ahead'))).toMatchObject({ previous: 1, next: 5 })
  })

  it('comes back to a step that was jumped over', () => {
    expect(around(course('ahead', 'under-way'))).toMatchObject({ current: 2, next: 1 })
  })

  it('numbers by rank, not by the order of arrival', () => {
    const steps = [step('late', { rank: 'b0' }), step('early', { rank: 'a0', state: 'under-way' })]
    expect(courseOfSteps(steps).current).toMatchObject({ number: 1, step: { id: 'early' } })
  })

  it('takes the step begun last when two are under way', () => {
    const steps = [
      step('first', { rank: 'a0', state: 'under-way', startedAt: '2026-03-02T10:00:00Z' }),
      step('second', { rank: 'a1', state: 'under-way', startedAt: '2026-03-02T09:00:00Z' }),
    ]
    expect(courseOfSteps(steps).current?.step.id).toBe('first')
  })

  it('tells what is open before the step under way and the next one, by their numbers', () => {
    const steps = [
      step('a', { rank: 'a0', title: 'A', state: 'ahead' }),
      step('b', { rank: 'a1', title: 'B', state: 'under-way', needs: ['a'] }),
      step('c', { rank: 'a2', title: 'C', state: 'done' }),
      step('d', { rank: 'a3', title: 'D', state: 'ahead', needs: ['c', 'b', 'a'] }),
    ]
    const { current, next } = courseOfSteps(steps)
    expect(current?.open).toEqual([{ number: 1, title: 'A', state: 'ahead' }])
    expect(next?.open.map(({ number, state }) => [number, state])).toEqual([
      [2, 'under-way'],
      [1, 'ahead'],
    ])
  })
})
