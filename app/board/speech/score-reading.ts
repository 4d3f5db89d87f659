import { isSameSetting } from '@/lib/board/edits/speech.ts'
import type { HearingTest } from '@/lib/board/records/hearing-test.ts'
import { isScore, type ScoreTest, type SpeechTest } from '@/lib/board/records/speech-test.ts'
import { type ProportionInterval, wilsonInterval } from '@/lib/speech/binomial-interval.ts'
import { combineLists } from '@/lib/speech/combined-lists.ts'
import { compareScores, type ScoreComparison } from '@/lib/speech/critical-difference.ts'
import type { EarIndex, ListeningCondition } from '@/lib/speech/ear-index.ts'
import { type ScoreAgainstExpectation, scoreAgainstExpectation } from '@/lib/speech/expected-score.ts'
import { type Rollover, rollover } from '@/lib/speech/rollover.ts'
import { overallLevelRangeDbSpl } from '@/lib/speech/speech-spectrum.ts'
import type { WordScore } from '@/lib/speech/word-score.ts'
import { indexFrom, nearestTest } from './index-from-tests.ts'
import { scoreOf } from './score-of.ts'
import { type WordTransfer, wordTransferOf } from './word-transfer.ts'

/** What one score says, and what it can be held against. */
export interface ScoreReading {
  readonly kind: 'score'
  readonly test: ScoreTest
  readonly score: WordScore
  /** Absent where the items of a list depend on one another, as the phonemes of one word do. */
  readonly interval?: ProportionInterval
  readonly change?: ScoreChange
  /** Against the score of the same ear without the device. */
  readonly benefit?: ScoreChange
  readonly expectation: Expectation
}

export interface ScoreChange {
  readonly earlier: ScoreTest
  readonly comparison: ScoreComparison
}

export type Expectation =
  | {
      readonly kind: 'known'
      readonly against: ScoreAgainstExpectation
      readonly index: EarIndex
      readonly audiogram: HearingTest
      readonly words: WordTransfer
    }
  | { readonly kind: 'not-known'; readonly because: 'both-ears' | 'material' | 'no-audiogram' | 'level' }

/** Binomial statistics hold for items that are right or wrong each for itself. */
export const itemsAreIndependent = ({ material }: Pick<SpeechTest, 'material'>): boolean => material !== 'phonemes'

/** @param speechTests and `tests` of the case; those entered in error are left out of every comparison */
export function readScore(
  test: ScoreTest,
  speechTests: readonly SpeechTest[],
  tests: readonly HearingTest[],
): ScoreReading {
  const score = scoreOf(test)
  const expectation = expectationOf(test, tests)
  if (!itemsAreIndependent(test)) return { kind: 'score', test, score, expectation }
  const others = speechTests.filter(isScore).filter(({ id, state }) => id !== test.id && state !== 'entered-in-error')
  const earlier = latestOf(others.filter((other) => isSameSetting(other, test) && other.performedOn < test.performedOn))
  const unaided =
    test.condition === 'aided' ? latestOf(others.filter((other) => isWithoutDevice(other, test))) : undefined
  return {
    kind: 'score',
    test,
    score,
    interval: wilsonInterval(score),
    ...(earlier && { change: changeFrom(earlier, test) }),
    ...(unaided && { benefit: changeFrom(unaided, test) }),
    expectation,
  }
}

const changeFrom = (earlier: ScoreTest, test: ScoreTest): ScoreChange => ({
  earlier,
  comparison: compareScores(scoreOf(earlier), scoreOf(test)),
})

/** The same words at the same levels from the loudspeaker or by earphone, without the device. */
const isWithoutDevice = (other: ScoreTest, test: ScoreTest): boolean =>
  other.condition !== 'aided' && isSameSetting({ ...other, condition: test.condition }, test)

const latestOf = (tests: readonly ScoreTest[]): ScoreTest | undefined =>
  tests.reduce<ScoreTest | undefined>(
    (kept, test) => (kept === undefined || isLater(test, kept) ? test : kept),
    undefined,
  )

function isLater(a: ScoreTest, b: ScoreTest): boolean {
  if (a.performedOn !== b.performedOn) return a.performedOn > b.performedOn
  return a.at > b.at || (a.at === b.at && a.id > b.id)
}

function expectationOf(test: ScoreTest, tests: readonly HearingTest[]): Expectation {
  if (test.ear === 'both') return { kind: 'not-known', because: 'both-ears' }
  const words = wordTransferOf(test)
  if (words === undefined) return { kind: 'not-known', because: 'material' }
  if (!isPlayable(test.speechLevel) || (test.noiseLevel !== undefined && !isPlayable(test.noiseLevel)))
    return { kind: 'not-known', because: 'level' }
  const audiogram = nearestTest(tests, test.ear, test.condition, test.performedOn)
  const index = audiogram && indexFrom(audiogram, tests, listeningTo(test, words))
  if (audiogram === undefined || index === undefined) return { kind: 'not-known', because: 'no-audiogram' }
  const against = scoreAgainstExpectation(index, words.material, scoreOf(test))
  return { kind: 'known', against, index, audiogram, words }
}

const isPlayable = (dbSpl: number): boolean =>
  dbSpl >= overallLevelRangeDbSpl.low && dbSpl <= overallLevelRangeDbSpl.high

const listeningTo = ({ speechLevel, noiseLevel }: ScoreTest, { material }: WordTransfer): ListeningCondition => ({
  procedure: 'one-third-octave',
  material,
  speech: { kind: 'level', overallDbSpl: speechLevel, effort: 'normal' },
  noise: noiseLevel === undefined ? { kind: 'quiet' } : { kind: 'speech-shaped', overallDbSpl: noiseLevel },
  listening: 'monaural',
})

/** Scores of one ear, condition, material and day at two or more levels in quiet. */
export interface RolloverReading {
  readonly ear: SpeechTest['ear']
  readonly condition: SpeechTest['condition']
  readonly performedOn: string
  readonly result: Rollover
}

export function rolloversIn(speechTests: readonly SpeechTest[]): readonly RolloverReading[] {
  const counted = speechTests
    .filter(isScore)
    .filter((test) => test.state === 'current' && test.noiseLevel === undefined && itemsAreIndependent(test))
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
