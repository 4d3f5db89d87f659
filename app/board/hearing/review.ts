import type { Finding } from '@/lib/audiometry/findings.ts'
import { reviewTest } from '@/lib/audiometry/review-test.ts'
import type { EarlierTest } from '@/lib/audiometry/swapped-ears.ts'
import { audiogramOf, testedEarOf } from '@/lib/board/audiograms.ts'
import type { HearingTest } from '@/lib/board/records/hearing-test.ts'
import type { Ear } from '@/lib/units/frequencies.ts'
import { currentTest } from './tests-shown.ts'

/** Findings in the current tests without a device; undefined unless there is one of each ear. */
export function findingsIn(tests: readonly HearingTest[]): readonly Finding[] | undefined {
  const right = currentTest(tests, 'right')
  const left = currentTest(tests, 'left')
  if (right === undefined || left === undefined) return undefined
  return reviewTest({ ears: { right: testedEarOf(right), left: testedEarOf(left) }, earlier: earlierOf(tests) })
}

/** The latest superseded tests of both ears; tests entered in error say nothing about the patient. */
function earlierOf(tests: readonly HearingTest[]): readonly EarlierTest[] {
  const latest = (ear: Ear) =>
    tests
      .filter((test) => test.ear === ear && test.condition === 'unaided' && test.state === 'superseded')
      .toSorted((a, b) => (a.performedOn < b.performedOn ? 1 : -1))[0]
  const right = latest('right')
  const left = latest('left')
  if (right === undefined || left === undefined) return []
  const air = { right: audiogramOf(right.points, 'air'), left: audiogramOf(left.points, 'air') }
  return [{ date: right.performedOn, air }]
}

/** Findings of one rule about one ear and route, which differ by frequency only. */
export type FindingGroup = readonly [Finding, ...Finding[]]

export function grouped(findings: readonly Finding[]): readonly FindingGroup[] {
  const groups = new Map<string, [Finding, ...Finding[]]>()
  for (const finding of findings) {
    const key = `${finding.id} ${finding.where.ear} ${finding.where.route}`
    const group = groups.get(key)
    if (group === undefined) groups.set(key, [finding])
    else group.push(finding)
  }
  return [...groups.values()]
}
