import { audiogramOf } from '@/lib/board/audiograms.ts'
import type { HearingTest, TestCondition } from '@/lib/board/records/hearing-test.ts'
import { aidedIndex, type EarIndex, type ListeningCondition, unaidedIndex } from '@/lib/speech/ear-index.ts'
import type { Ear } from '@/lib/units/frequencies.ts'

/**
 * Index of an ear from a test in any condition, with the bone conduction nearest in time.
 * @returns undefined when no frequency has a threshold
 */
export function indexFrom(
  test: HearingTest,
  tests: readonly HearingTest[],
  condition: ListeningCondition,
): EarIndex | undefined {
  const thresholds = audiogramOf(test.points, routeOf(test.condition))
  if (![...thresholds.values()].some(({ kind }) => kind !== 'could-not-test')) return undefined
  const unaided = test.condition === 'unaided' ? test : nearestTest(tests, test.ear, 'unaided', test.performedOn)
  const bone = unaided && { bone: audiogramOf(unaided.points, 'bone') }
  if (test.condition === 'aided') return aidedIndex({ aided: thresholds, ...bone }, condition)
  return unaidedIndex({ air: thresholds, ...bone }, condition)
}

const routeOf = (condition: TestCondition) => (condition === 'unaided' ? 'air' : condition)

/** The test nearest in days, of those that were not entered in error; the later one of two that are equally near. */
export function nearestTest(
  tests: readonly HearingTest[],
  ear: Ear,
  condition: TestCondition,
  calendarDay: string,
): HearingTest | undefined {
  const distance = ({ performedOn }: HearingTest) => Math.abs(Date.parse(performedOn) - Date.parse(calendarDay))
  return tests
    .filter((test) => test.ear === ear && test.condition === condition && test.state !== 'entered-in-error')
    .toSorted(
      (a, b) =>
        distance(a) - distance(b) ||
        Number(b.state === 'current') - Number(a.state === 'current') ||
        (a.id < b.id ? -1 : 1),
    )[0]
}
