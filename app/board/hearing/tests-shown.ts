import type { RecordId } from '@/lib/board/identity.ts'
import type { HearingTest, TestCondition } from '@/lib/board/records/hearing-test.ts'
import type { Ear } from '@/lib/units/frequencies.ts'

/** Current tests first, then the latest day; the same order for everyone. */
export function testOrder(a: HearingTest, b: HearingTest): number {
  const current = Number(b.state === 'current') - Number(a.state === 'current')
  if (current !== 0) return current
  if (a.performedOn !== b.performedOn) return a.performedOn < b.performedOn ? 1 : -1
  return a.id < b.id ? -1 : 1
}

export function currentTest(
  tests: readonly HearingTest[],
  ear: Ear,
  condition: TestCondition = 'unaided',
): HearingTest | undefined {
  return tests.find((test) => test.state === 'current' && test.ear === ear && test.condition === condition)
}

/** The test of an ear that the chart shows: the chosen one, else the current one without a device, else the first. */
export function shownTest(
  tests: readonly HearingTest[],
  ear: Ear,
  chosen: RecordId | undefined,
): HearingTest | undefined {
  const ofEar = tests.filter((test) => test.ear === ear).sort(testOrder)
  return ofEar.find(({ id }) => id === chosen) ?? currentTest(ofEar, ear) ?? ofEar[0]
}

/** Current tests of the same ear in other conditions, to be drawn with the one shown while that is current too. */
export function companions(tests: readonly HearingTest[], shown: HearingTest): readonly HearingTest[] {
  if (shown.state !== 'current') return []
  return tests.filter(
    ({ ear, state, condition }) => ear === shown.ear && state === 'current' && condition !== shown.condition,
  )
}
