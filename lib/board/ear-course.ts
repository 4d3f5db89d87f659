import type { EarCourse, EarMeasured, ForecastAt, ScoreMeasured, Sourced } from '../outcomes/ear-course.ts'
import { type Ear, otherEar } from '../units/frequencies.ts'
import { audiogramOf } from './audiograms.ts'
import { type HearingTest, type PointRoute, routesOf, type TestCondition } from './records/hearing-test.ts'
import type { ForecastRecord } from './records/sealed-record.ts'
import { isScore, type ScoreTest, type SpeechTest } from './records/speech-test.ts'
import { isHeld, type Visit } from './records/visit.ts'
import { inOrderOfTime } from './visit-plan.ts'

/** What the course of an ear is read from. */
export interface CourseRecords {
  readonly ear: Ear
  readonly tests: readonly HearingTest[]
  readonly speechTests: readonly SpeechTest[]
  readonly visits: readonly Visit[]
  readonly forecasts: readonly ForecastRecord[]
  /** calendar day; absent: not known, and the first visit takes its place */
  readonly operatedOn?: string | undefined
}

/** An ear before its operation and at every held visit, with the forecast that counted when it was operated on. */
export function earCourseOf(records: CourseRecords): EarCourse {
  const { ear, tests, visits } = records
  const other = otherEar(ear)
  const held = inOrderOfTime(visits).filter(isHeld)
  const cutoff = records.operatedOn ?? held[0]?.held.on
  const forecast = standingForecast(records)
  return {
    before: measuredFrom(testsBefore(tests, ear, cutoff)),
    otherBefore: measuredFrom(testsBefore(tests, other, cutoff)),
    wordsBefore: wordsBefore(records.speechTests, ear, cutoff).map(measuredScore),
    visits: held.map(({ id, occasion, held: { at, on } }) => ({
      visit: id,
      on,
      writtenAt: lastOf([at, ...testsFiledAt(records, id)]),
      isFirstFitting: occasion === 'first-fitting',
      ear: measuredFrom(testsOfVisit(tests, id, ear)),
      otherEar: measuredFrom({ ...looseTests(tests, other, cutoff, on), ...testsOfVisit(tests, id, other) }),
      words: scoresIn(inForceAtVisit(records.speechTests, id), ear).map(measuredScore),
    })),
    ...(forecast === undefined ? {} : { forecast: expectedBy(forecast) }),
  }
}

/** The sealed forecast of the ear that nothing follows, of the ear as it was planned before one under a scenario. */
export function standingForecast({
  ear,
  forecasts,
}: Pick<CourseRecords, 'ear' | 'forecasts'>): ForecastRecord | undefined {
  const followed = new Set(forecasts.map(({ follows }) => follows))
  return forecasts
    .filter(({ id, content }) => content.inputs.ear === ear && !followed.has(id))
    .sort(
      (a, b) =>
        Number(a.scenario !== undefined) - Number(b.scenario !== undefined) ||
        (a.at === b.at ? a.id.localeCompare(b.id) : b.at.localeCompare(a.at)),
    )[0]
}

const expectedBy = ({ content }: ForecastRecord): readonly ForecastAt[] =>
  content.byFrequency.map(({ frequency, aidedThreshold, effectiveGain }) => ({
    frequency,
    ...(aidedThreshold.kind === 'estimate' ? { aidedThreshold: aidedThreshold.value } : {}),
    ...(effectiveGain.kind === 'estimate' ? { effectiveGain: effectiveGain.value } : {}),
  }))

/** The tests of one ear that count at a visit, one a condition: the latest that no other of the same visit took the place of. */
export function testsOfVisit(
  tests: readonly HearingTest[],
  visit: string,
  ear: Ear,
): Readonly<Partial<Record<TestCondition, HearingTest>>> {
  return latestByCondition(inForceAtVisit(tests, visit).filter((test) => test.ear === ear))
}

/** When the tests of a visit were written down: often later than the visit itself. */
const testsFiledAt = ({ tests, speechTests }: CourseRecords, visit: string): readonly string[] =>
  [...inForceAtVisit(tests, visit), ...inForceAtVisit(speechTests, visit)].map(({ at }) => at)

const lastOf = (moments: readonly [string, ...string[]]): string =>
  moments.reduce((last, moment) => (Date.parse(moment) > Date.parse(last) ? moment : last))

const inForceAtVisit = <T extends HearingTest | SpeechTest>(tests: readonly T[], visit: string): readonly T[] =>
  inForce(tests.filter((test) => test.visit === visit))

/**
 * Tests of one occasion without those entered in error, and without those that another of them took the place of: it may be
 * of the other ear or of other material, where that is what was corrected.
 */
export function inForce<T extends HearingTest | SpeechTest>(ofOccasion: readonly T[]): readonly T[] {
  const counted = ofOccasion.filter(({ state }) => state !== 'entered-in-error')
  const ids = new Set(counted.map(({ id }) => id))
  return counted.filter(({ closing }) => !ids.has(closing?.supersededBy ?? ''))
}

/** The last tests before the operation, of no visit. With a device on, the day of the operation is no longer before it. */
export function testsBefore(
  tests: readonly HearingTest[],
  ear: Ear,
  cutoff: string | undefined,
): Readonly<Partial<Record<TestCondition, HearingTest>>> {
  return latestByCondition(tests.filter((test) => test.ear === ear && isBefore(test, cutoff)))
}

/** Of no visit, and done before the operation. */
export const isBefore = (
  { visit, state, condition, performedOn }: HearingTest | SpeechTest,
  cutoff: string | undefined,
): boolean =>
  visit === undefined &&
  state !== 'entered-in-error' &&
  (cutoff === undefined || performedOn < cutoff || (performedOn === cutoff && condition !== 'aided'))

/** Scores of monosyllables in quiet: other material is not held against them, and phonemes of one word hang together. */
const scoresIn = (tests: readonly SpeechTest[], ear: Ear): readonly ScoreTest[] =>
  tests
    .filter(isScore)
    .filter((test) => test.ear === ear && test.material === 'monosyllables' && test.noiseLevel === undefined)

/** Lists before the operation that count: one that was corrected is not added up with what took its place. */
const wordsBefore = (tests: readonly SpeechTest[], ear: Ear, cutoff: string | undefined): readonly ScoreTest[] =>
  latestDay(scoresIn(inForce(tests.filter((test) => isBefore(test, cutoff))), ear))

/** Of each condition and level, the lists of the last day. */
const latestDay = (tests: readonly ScoreTest[]): readonly ScoreTest[] =>
  tests.filter((test) => !tests.some((other) => isSameMeasure(test, other) && other.performedOn > test.performedOn))

const isSameMeasure = (a: ScoreTest, b: ScoreTest): boolean =>
  a.condition === b.condition && a.speechLevel === b.speechLevel

const measuredScore = ({ condition, speechLevel, right, items }: ScoreTest): ScoreMeasured => ({
  condition,
  levelDbSpl: speechLevel,
  score: { correct: right, presented: items },
})

/**
 * The last tests of an ear since the operation until a day that belong to no visit. The other ear is often tested apart from
 * the visits of the operated one.
 */
function looseTests(
  tests: readonly HearingTest[],
  ear: Ear,
  since: string | undefined,
  until: string,
): Readonly<Partial<Record<TestCondition, HearingTest>>> {
  return latestByCondition(
    tests.filter(
      ({ ear: of, visit, state, performedOn }) =>
        of === ear &&
        visit === undefined &&
        state !== 'entered-in-error' &&
        performedOn <= until &&
        (since === undefined || performedOn > since),
    ),
  )
}

function latestByCondition(tests: readonly HearingTest[]): Partial<Record<TestCondition, HearingTest>> {
  const inOrder = [...tests].sort((a, b) => orderOf(a).localeCompare(orderOf(b)))
  return Object.fromEntries(inOrder.map((test) => [test.condition, test]))
}

const orderOf = ({ performedOn, at, id }: HearingTest): string => `${performedOn} ${at} ${id}`

const nameOf = { air: 'air', bone: 'bone', 'sound-field': 'soundField', aided: 'aided' } as const satisfies Record<
  PointRoute,
  keyof EarMeasured
>

function measuredFrom(tests: Readonly<Partial<Record<TestCondition, HearingTest>>>): EarMeasured {
  const routes = Object.values(tests).flatMap((test) =>
    routesOf[test.condition].flatMap((route): [keyof EarMeasured, Sourced][] => {
      const thresholds = audiogramOf(test.points, route)
      return thresholds.size === 0 ? [] : [[nameOf[route], { source: test.id, thresholds }]]
    }),
  )
  return Object.fromEntries(routes)
}
