import { expect, test } from 'vitest'
import { endOf } from '../../../app/overview/expiry.ts'

const noon = Date.parse('2026-03-01T12:00:00Z')

test.each([
  ['day', '2026-03-02T12:00:00.000Z'],
  ['week', '2026-03-08T12:00:00.000Z'],
  ['month', '2026-03-31T12:00:00.000Z'],
  ['year', '2027-03-01T12:00:00.000Z'],
  ['unlimited', null],
] as const)('an invitation open for one %s ends at %s', (span, end) => {
  expect(endOf(span, noon)).toBe(end)
})
