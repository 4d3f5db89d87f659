import type { EarTests, ForecastPlan } from '../forecast/inputs.ts'
import type { Ear } from '../units/frequencies.ts'
import { audiogramOf } from './audiograms.ts'
import type { HearingTest, TestCondition } from './records/hearing-test.ts'
import type { Plan } from './records/plan.ts'
import { isScore, type SpeechTest } from './records/speech-test.ts'

/** As much of the plan as a forecast needs. */
export const forecastPlanOf = ({ ear, deviceClass, couplingSite, malleus, incus, stapes }: Plan): ForecastPlan => ({
  ear,
  deviceClass,
  couplingSite,
  malleus,
  incus,
  stapes,
})

/**
 * What a forecast takes from the record: the current tests of one ear, never a superseded one or one entered in error.
 * @returns undefined when the ear has no current unaided test
 */
export function earTestsOf(
  ear: Ear,
  tests: readonly HearingTest[],
  speechTests: readonly SpeechTest[],
): EarTests | undefined {
  const unaided = currentTest(tests, ear, 'unaided')
  if (unaided === undefined) return undefined
  const inField = currentTest(tests, ear, 'sound-field')
  return {
    air: audiogramOf(unaided.points, 'air'),
    bone: audiogramOf(unaided.points, 'bone'),
    soundField: inField && audiogramOf(inField.points, 'sound-field'),
    unaidedWords: speechTests
      .filter(isScore)
      .filter((test) => isUnaidedWordsInQuiet(test, ear))
      .sort((a, b) => (a.performedOn < b.performedOn ? -1 : 1))
      .map(({ right, items, speechLevel }) => ({ right, items, levelDbSpl: speechLevel })),
  }
}

export const currentTest = (
  tests: readonly HearingTest[],
  ear: Ear,
  condition: TestCondition,
): HearingTest | undefined =>
  tests.find((test) => test.state === 'current' && test.ear === ear && test.condition === condition)

const isUnaidedWordsInQuiet = (test: SpeechTest, ear: Ear): boolean =>
  test.state === 'current' &&
  test.ear === ear &&
  test.condition === 'unaided' &&
  test.material === 'monosyllables' &&
  test.noiseLevel === undefined
