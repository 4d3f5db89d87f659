import { expect, it } from 'vitest'
import { benefitCourse } from '../../../lib/outcomes/benefit-course.ts'
import { aidedCourse, courseVisit, sourced } from '../../fixtures/ear-courses.ts'

it('follows the functional gain from visit to visit against the best before', () => {
  const course = benefitCourse(aidedCourse(35, 30, 32, 38, 50))
  expect(course.map(({ state, gain }) => [state, gain?.value.low])).toEqual([
    ['first', 25],
    ['held', 30],
    ['held', 28],
    ['cannot-tell', 22],
    ['lost', 10],
  ])
})

it('says where it was not measured', () => {
  const course = aidedCourse(30)
  const visits = [...course.visits, courseVisit('next', '2026-05-01', { aided: sourced('x', { 500: 30, 1000: 30 }) })]
  expect(benefitCourse({ ...course, visits }).map(({ state }) => state)).toEqual(['first', 'not-measured'])
})
