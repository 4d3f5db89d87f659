import { type HearingTest, TestCondition } from '@/lib/board/records/hearing-test.ts'

const conditions = TestCondition.options

/**
 * Current tests ear by ear (right first) and condition by condition; then what is not current, superseded before
 * entered in error, newest first.
 */
export function sortedTests(tests: readonly HearingTest[]): {
  readonly current: readonly HearingTest[]
  readonly former: readonly HearingTest[]
} {
  const current = tests
    .filter(({ state }) => state === 'current')
    .sort(
      (a, b) =>
        b.ear.localeCompare(a.ear) ||
        conditions.indexOf(a.condition) - conditions.indexOf(b.condition) ||
        newestFirst(a, b),
    )
  const closed = (state: HearingTest['state']) => tests.filter((test) => test.state === state).sort(newestFirst)
  return { current, former: [...closed('superseded'), ...closed('entered-in-error')] }
}

const newestFirst = (a: HearingTest, b: HearingTest): number =>
  b.performedOn.localeCompare(a.performedOn) || a.id.localeCompare(b.id)
