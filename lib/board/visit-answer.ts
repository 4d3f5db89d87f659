import type { Threshold } from '../audiometry/thresholds.ts'
import type { FrequencyHz } from '../units/frequencies.ts'
import { audiogramOf } from './audiograms.ts'
import { testsOfVisit } from './ear-course.ts'
import type { HearingTest, TestCondition } from './records/hearing-test.ts'
import type { VisitItem, WantedThresholds } from './records/visit-item.ts'

/** What a visit says to one wanted frequency, beside what stood before the operation; absent where nothing was measured. */
export interface AnswerAt {
  readonly frequency: FrequencyHz
  readonly now: Threshold | undefined
  readonly before: Threshold | undefined
}

export interface VisitAnswer {
  readonly wanted: WantedThresholds
  /** those that were measured at the visit, in the order of frequency */
  readonly found: readonly AnswerAt[]
  readonly missing: readonly FrequencyHz[]
}

const conditionOf = {
  air: 'unaided',
  bone: 'unaided',
  'sound-field': 'sound-field',
  aided: 'aided',
} as const satisfies Record<WantedThresholds['route'], TestCondition>

/**
 * The numbers of a visit that answer an item; whether they answer it is for a person to say.
 * @param before the tests before the operation, one a condition
 * @returns undefined for an item that asks for no thresholds
 */
export function answerFrom(
  { visit, wanted }: Pick<VisitItem, 'visit' | 'wanted'>,
  tests: readonly HearingTest[],
  before: Readonly<Partial<Record<TestCondition, HearingTest>>>,
): VisitAnswer | undefined {
  if (wanted === undefined) return undefined
  const condition = conditionOf[wanted.route]
  const now = testsOfVisit(tests, visit, wanted.ear)[condition]
  const then = before[condition]
  const audiograms = [now, then].map((test) => test && audiogramOf(test.points, wanted.route))
  const at = [...new Set(wanted.frequencies)]
    .sort((a, b) => a - b)
    .map((frequency) => ({
      frequency,
      now: audiograms[0]?.get(frequency),
      before: audiograms[1]?.get(frequency),
    }))
  return {
    wanted,
    found: at.filter(({ now }) => now !== undefined),
    missing: at.filter(({ now }) => now === undefined).map(({ frequency }) => frequency),
  }
}
