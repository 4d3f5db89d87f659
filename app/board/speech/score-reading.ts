import { audiogramOf } from '@/lib/board/audiograms.ts'
import { isSameSetting } from '@/lib/board/edits/speech.ts'
import type { HearingTest, TestCondition } from '@/lib/board/records/hearing-test.ts'
import type { SpeechTest } from '@/lib/board/records/speech-test.ts'
import { type ProportionInterval, wilsonInterval } from '@/lib/speech/binomial-interval.ts'
import { combineLists } from '@/lib/speech/combined-lists.ts'
import { compareScores, type ScoreComparison } from '@/lib/speech/critical-difference.ts'
import { aidedIndex, type EarIndex, type ListeningCondition, unaidedIndex } from '@/lib/speech/ear-index.ts'
import { type ScoreAgainstExpectation, scoreAgainstExpectation } from '@/lib/speech/expected-score.ts'
import { type Rollover, rollover } from '@/lib/speech/rollover.ts'
import { overallLevelRangeDbSpl } from '@/lib/speech/speech-spectrum.ts'
import type { WordScore } from '@/lib/speech/word-score.ts'
import type { Ear } from '@/lib/units/frequencies.ts'

/** What one score says, and what it can be held against. */
export interface ScoreReading {
  readonly test: SpeechTest
  readonly score: WordScore
  /** Absent where the items of a list depend on one another, as the phonemes of one word do. */
  readonly interval?: ProportionInterval
  readonly change?: ScoreChange
  /** Against the score of the same ear without the device. */
  readonly benefit?: ScoreChange
  readonly expectation: Expectation
}

export interface ScoreChange {
  readonly earlier: SpeechTest
  readonly comparison: ScoreComparison
}

export type Expectation =
  | {
      readonly kind: 'known'
      readonly against: ScoreAgainstExpectation
      readonly index: EarIndex
      readonly audiogram: HearingTest
    }
  | { readonly kind: 'not-known'; readonly because: 'both-ears' | 'material' | 'no-audiogram' | 'level' }

export const scoreOf = ({ right, items }: Pick<SpeechTest, 'right' | 'items'>): WordScore => ({
  correct: right,
  presented: items,
})

/** Binomial statistics hold for items that are right or wrong each for itself. */
export const itemsAreIndependent = ({ material }: Pick<SpeechTest, 'material'>): boolean => material !== 'phonemes'

/** @param speechTests and `tests` of the case; those entered in error are left out of every comparison */
export function readScore(
  test: SpeechTest,
  speechTests: readonly SpeechTest[],
  tests: readonly HearingTest[],
): ScoreReading {
  const score = scoreOf(test)
  const expectation = expectationOf(test, tests)
  if (!itemsAreIndependent(test)) return { test, score, expectation }
  const others = speechTests.filter(({ id, state }) => id !== test.id && state !== 'entered-in-error')
  const earlier = latestOf(others.filter((other) => isSameSetting(other, test) && other.performedOn < test.performedOn))
  const unaided =
    test.condition === 'aided' ? latestOf(others.filter((other) => isWithoutDevice(other, test))) : undefined
  return {
    test,
    score,
    interval: wilsonInterval(score),
    ...(earlier && { change: changeFrom(earlier, test) }),
    ...(unaided && { benefit: changeFrom(unaided, test) }),
    expectation,
  }
}

const changeFrom = (earlier: SpeechTest, test: SpeechTest): ScoreChange => ({
  earlier,
  comparison: compareScores(scoreOf(earlier), scoreOf(test)),
})

/** The same words at the same levels from the loudspeaker or by earphone, without the device. */
const isWithoutDevice = (other: SpeechTest, test: SpeechTest): boolean =>
  other.condition !== 'aided' && isSameSetting({ ...other, condition: test.condition }, test)

const latestOf = (tests: readonly SpeechTest[]): SpeechTest | undefined =>
  tests.reduce<SpeechTest | undefined>(
    (kept, test) => (kept === undefined || isLater(test, kept) ? test : kept),
    undefined,
  )

function isLater(a: SpeechTest, b: SpeechTest): boolean {
  if (a.performedOn !== b.performedOn) return a.performedOn > b.performedOn
  return a.at > b.at || (a.at === b.at && a.id > b.id)
}

/** The only material with a transfer function here that word lists of any language come near to. */
const transferMaterial = 'nu6'

function expectationOf(test: SpeechTest, tests: readonly HearingTest[]): Expectation {
  if (test.ear === 'both') return { kind: 'not-known', because: 'both-ears' }
  if (test.material !== 'monosyllables') return { kind: 'not-known', because: 'material' }
  if (!isPlayable(test.speechLevel) || (test.noiseLevel !== undefined && !isPlayable(test.noiseLevel)))
    return { kind: 'not-known', because: 'level' }
  const audiogram = nearestTest(tests, test.ear, test.condition, test.performedOn)
  const index = audiogram && indexFrom(audiogram, tests, listeningTo(test))
  if (audiogram === undefined || index === undefined) return { kind: 'not-known', because: 'no-audiogram' }
  return { kind: 'known', against: scoreAgainstExpectation(index, transferMaterial, scoreOf(test)), index, audiogram }
}

const isPlayable = (dbSpl: number): boolean =>
  dbSpl >= overallLevelRangeDbSpl.low && dbSpl <= overallLevelRangeDbSpl.high

const listeningTo = ({ speechLevel, noiseLevel }: SpeechTest): ListeningCondition => ({
  procedure: 'one-third-octave',
  material: transferMaterial,
  speech: { kind: 'level', overallDbSpl: speechLevel, effort: 'normal' },
  noise: noiseLevel === undefined ? { kind: 'quiet' } : { kind: 'speech-shaped', overallDbSpl: noiseLevel },
  listening: 'monaural',
})

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

/** Scores of one ear, condition, material and day at two or more levels in quiet. */
export interface RolloverReading {
  readonly ear: SpeechTest['ear']
  readonly condition: SpeechTest['condition']
  readonly performedOn: string
  readonly result: Rollover
}

export function rolloversIn(speechTests: readonly SpeechTest[]): readonly RolloverReading[] {
  const counted = speechTests.filter(
    (test) => test.state === 'current' && test.noiseLevel === undefined && itemsAreIndependent(test),
  )
  const series = groupedBy(counted, ({ ear, condition, material, performedOn }) =>
    [ear, condition, material, performedOn].join(' '),
  )
  return [...series.values()].flatMap((tests) => {
    const [first] = tests
    const levels = [...groupedBy(tests, ({ speechLevel }) => speechLevel)]
    if (first === undefined || levels.length < 2) return []
    const points = levels.map(([levelDb, lists]) => ({ levelDb, score: combineLists(lists.map(scoreOf)).score }))
    const { ear, condition, performedOn } = first
    return [{ ear, condition, performedOn, result: rollover(points) }]
  })
}

function groupedBy<T, K>(items: readonly T[], keyOf: (item: T) => K): ReadonlyMap<K, readonly T[]> {
  const groups = new Map<K, T[]>()
  for (const item of items) {
    const group = groups.get(keyOf(item))
    if (group === undefined) groups.set(keyOf(item), [item])
    else group.push(item)
  }
  return groups
}
