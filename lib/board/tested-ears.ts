import type { EarlierTest } from '../audiometry/swapped-ears.ts'
import type { TestedEar, TestedEars } from '../audiometry/tested-ear.ts'
import type { Audiogram, Threshold } from '../audiometry/thresholds.ts'
import { audiometricFrequenciesHz, type Ear, type FrequencyHz } from '../units/frequencies.ts'
import { audiogramOf } from './audiograms.ts'
import { type HearingTest, type Point, pointKey, type TestCondition } from './records/hearing-test.ts'
import { isReception, type ReceptionTest, type SpeechTest } from './records/speech-test.ts'

type Tested = Pick<HearingTest, 'ear' | 'performedOn' | 'points' | 'airTransducer' | 'boneTransducer' | 'repeatAt1000'>

/** An ear of which there is no test. */
export const untested: TestedEar = { air: new Map(), bone: new Map() }

/**
 * A test without a device as the rules of `lib/audiometry` read it: air and bone of the same test, the masked point
 * where there is one, and beside it what was found without masking; with the speech reception threshold of its day.
 */
export function testedEarOf(test: Tested, speechTests: readonly SpeechTest[] = []): TestedEar {
  const { points, airTransducer, boneTransducer, repeatAt1000 } = test
  const speech = receptionTestOf(test, speechTests)
  return {
    air: audiogramOf(points, 'air'),
    bone: audiogramOf(points, 'bone'),
    airBeforeMasking: beforeMasking(points, 'air'),
    boneBeforeMasking: beforeMasking(points, 'bone'),
    ...(airTransducer === undefined ? {} : { airTransducer }),
    ...(boneTransducer === undefined ? {} : { boneTransducer }),
    ...(repeatAt1000 === undefined ? {} : { repeatAt1000 }),
    ...(speech === undefined ? {} : { speechReceptionThreshold: speech.receptionThreshold }),
  }
}

function beforeMasking(points: HearingTest['points'], route: 'air' | 'bone'): Audiogram {
  const thresholds = new Map<FrequencyHz, Threshold>()
  for (const frequency of audiometricFrequenciesHz) {
    const masked = points[pointKey({ route, masked: true, frequency })]
    const unmasked = points[pointKey({ route, masked: false, frequency })]
    if (masked !== undefined && unmasked !== undefined) thresholds.set(frequency, unmaskedThreshold(unmasked))
  }
  return thresholds
}

const unmaskedThreshold = (point: Point): Threshold =>
  point.kind === 'could-not-test' ? point : { ...point, masked: false }

/** Both ears from one test each; an ear without a test has no thresholds. */
export const testedEarsOf = (
  right: Tested | undefined,
  left: Tested | undefined,
  speechTests: readonly SpeechTest[] = [],
): TestedEars => ({
  right: right === undefined ? untested : testedEarOf(right, speechTests),
  left: left === undefined ? untested : testedEarOf(left, speechTests),
})

/**
 * Whether tones and a speech reception threshold are held against each other: the same ear without a device on the same
 * day, because between two days the hearing itself may have changed.
 */
export const isHeldAgainst = (tones: Pick<HearingTest, 'ear' | 'performedOn'>, speech: SpeechTest): boolean =>
  speech.condition === 'unaided' && speech.ear === tones.ear && speech.performedOn === tones.performedOn

/** The reception threshold that a test is held against: current before superseded ones, then the latest entered. */
function receptionTestOf(
  test: Pick<HearingTest, 'ear' | 'performedOn'>,
  speechTests: readonly SpeechTest[],
): ReceptionTest | undefined {
  const isCurrent = ({ state }: SpeechTest) => Number(state === 'current')
  return speechTests
    .filter(isReception)
    .filter((speech) => isHeldAgainst(test, speech) && speech.state !== 'entered-in-error')
    .toSorted((a, b) => isCurrent(b) - isCurrent(a) || (a.at < b.at || (a.at === b.at && a.id < b.id) ? 1 : -1))[0]
}

/**
 * The test that `test` is held against: the latest one of the same ear and condition before it that says something
 * about the patient. Tests entered in error never do; two of one day are ordered by when they were entered.
 */
export function previousTest(tests: readonly HearingTest[], test: HearingTest): HearingTest | undefined {
  return tests
    .filter(
      ({ ear, condition, state }) => ear === test.ear && condition === test.condition && state !== 'entered-in-error',
    )
    .filter((other) => other.id !== test.id && isBefore(other, test))
    .reduce<HearingTest | undefined>(
      (kept, other) => (kept === undefined || isBefore(kept, other) ? other : kept),
      undefined,
    )
}

function isBefore(a: HearingTest, b: HearingTest): boolean {
  if (a.performedOn !== b.performedOn) return a.performedOn < b.performedOn
  return a.at < b.at || (a.at === b.at && a.id < b.id)
}

/** The air conduction of both ears before these tests, for the suspicion of exchanged ears; none unless both have one. */
export function earlierOfBoth(
  tests: readonly HearingTest[],
  right: HearingTest | undefined,
  left: HearingTest | undefined,
): readonly EarlierTest[] {
  const before = { right: right && previousTest(tests, right), left: left && previousTest(tests, left) }
  if (before.right === undefined || before.left === undefined) return []
  const date = isBefore(before.right, before.left) ? before.left.performedOn : before.right.performedOn
  const air = { right: audiogramOf(before.right.points, 'air'), left: audiogramOf(before.left.points, 'air') }
  return [{ date, air }]
}

/** The tests of one ear that its measures are taken from, one a condition. */
export type EarTestRecords = Readonly<Partial<Record<TestCondition, HearingTest>>>

/** The chosen test in its condition, and the current tests of the ear in the others. */
export function testsToMeasure(
  tests: readonly HearingTest[],
  ear: Ear,
  chosen: HearingTest | undefined,
): EarTestRecords {
  const current = tests.filter((test) => test.ear === ear && test.state === 'current')
  const found = Object.fromEntries(current.map((test) => [test.condition, test]))
  return chosen === undefined || chosen.ear !== ear ? found : { ...found, [chosen.condition]: chosen }
}
