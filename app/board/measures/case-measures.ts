import type { Finding } from '@/lib/audiometry/findings.ts'
import { effectiveGain, functionalGain, type GainResult } from '@/lib/audiometry/gains.ts'
import type { AgeGroup } from '@/lib/audiometry/iso-7029.ts'
import { compareTests, type EarComparison, measuresOfTest, type TestMeasures } from '@/lib/audiometry/measures.ts'
import { type BothEars, mapEars } from '@/lib/audiometry/pairs.ts'
import { reviewTest } from '@/lib/audiometry/review-test.ts'
import { audiogramOf } from '@/lib/board/audiograms.ts'
import type { CaseHeader } from '@/lib/board/records/case-header.ts'
import type { HearingTest } from '@/lib/board/records/hearing-test.ts'
import { isReception, isScore, type ScoreTest, type SpeechTest } from '@/lib/board/records/speech-test.ts'
import {
  type EarTestRecords,
  earlierOfBoth,
  previousTest,
  testedEarsOf,
  testsToMeasure,
} from '@/lib/board/tested-ears.ts'
import { type EarIndex, wordsAt65InQuiet } from '@/lib/speech/ear-index.ts'
import { indexFrom } from '../speech/index-from-tests.ts'
import { type ReceptionReading, readReception } from '../speech/reception-reading.ts'

/** What the measures are taken from: the tests on the chart, and the current ones in the other conditions. */
export interface MeasuredCase {
  readonly tests: readonly HearingTest[]
  readonly speechTests: readonly SpeechTest[]
  readonly header: Pick<CaseHeader, 'ageYears' | 'sex'> | undefined
  readonly shown: readonly HearingTest[]
}

/** What is computed of one ear from more than its test without a device. */
export interface EarExtras {
  readonly records: EarTestRecords
  readonly previous: HearingTest | undefined
  readonly comparison: EarComparison | undefined
  readonly functionalGain: GainResult | undefined
  readonly effectiveGain: GainResult | undefined
  readonly unaidedIndex: EarIndex | undefined
  readonly aidedIndex: EarIndex | undefined
  readonly unaidedWords: ScoreTest | undefined
  readonly aidedWords: ScoreTest | undefined
  readonly unaidedReception: ReceptionReading | undefined
  readonly aidedReception: ReceptionReading | undefined
}

export interface CaseMeasures {
  readonly measures: TestMeasures
  readonly ears: BothEars<EarExtras>
  /** By urgency; undefined without a test without a device. */
  readonly findings: readonly Finding[] | undefined
  /** whether the tests of both ears say something about the patient */
  readonly bothCount: boolean
}

/** The age group of the norm that this board uses; what is missing for it stands in `missingForAge`. */
export function ageGroupOf(header: MeasuredCase['header']): AgeGroup | undefined {
  if (header?.ageYears === undefined || header.sex === 'not-stated') return undefined
  return { edition: '2017', sex: header.sex, age: header.ageYears }
}

export function caseMeasures({ tests, speechTests, header, shown }: MeasuredCase): CaseMeasures {
  const of = (ear: 'right' | 'left') =>
    testsToMeasure(
      tests,
      ear,
      shown.find((test) => test.ear === ear),
    )
  const records = { right: of('right'), left: of('left') }
  const { right, left } = mapEars(records, ({ unaided }) => unaided)
  const ears = testedEarsOf(right, left, speechTests)
  const group = ageGroupOf(header)
  const words = mapEars(records, (record) => unaidedWordsOf(record, speechTests))
  const wordScores =
    words.right && words.left ? { wordScores: { right: percentOf(words.right), left: percentOf(words.left) } } : {}
  return {
    measures: measuresOfTest({ ears, ...(group && { group }), ...wordScores }),
    ears: mapEars(records, (record) => extrasOf(record, tests, speechTests)),
    findings: findingsIn(tests, speechTests, counting(right), counting(left)),
    bothCount: counting(right) !== undefined && counting(left) !== undefined,
  }
}

/** A test entered in error says nothing about the patient: no finding, and no measure of both ears together. */
const counting = (test: HearingTest | undefined): HearingTest | undefined =>
  test?.state === 'entered-in-error' ? undefined : test

function findingsIn(
  tests: readonly HearingTest[],
  speechTests: readonly SpeechTest[],
  right: HearingTest | undefined,
  left: HearingTest | undefined,
): readonly Finding[] | undefined {
  if (right === undefined && left === undefined) return undefined
  return reviewTest({ ears: testedEarsOf(right, left, speechTests), earlier: earlierOfBoth(tests, right, left) })
}

function extrasOf(
  records: EarTestRecords,
  tests: readonly HearingTest[],
  speechTests: readonly SpeechTest[],
): EarExtras {
  const { unaided, aided } = records
  const inField = records['sound-field']
  const previous = unaided && previousTest(tests, unaided)
  const bone = unaided && audiogramOf(unaided.points, 'bone')
  const withDevice = aided && audiogramOf(aided.points, 'aided')
  const without = inField && audiogramOf(inField.points, 'sound-field')
  return {
    records,
    previous,
    comparison: unaided && previous && comparisonOf(previous, unaided),
    functionalGain: without && withDevice && functionalGain({ unaided: without, aided: withDevice }),
    effectiveGain: bone && withDevice && bone.size > 0 ? effectiveGain({ bone, aided: withDevice }) : undefined,
    unaidedIndex: unaided && indexFrom(unaided, tests, wordsAt65InQuiet),
    aidedIndex: aided && indexFrom(aided, tests, wordsAt65InQuiet),
    unaidedWords: unaidedWordsOf(records, speechTests),
    aidedWords: wordsOf(earOf(records), 'aided', speechTests),
    unaidedReception: receptionOf(earOf(records), 'unaided', speechTests, tests),
    aidedReception: receptionOf(earOf(records), 'aided', speechTests, tests),
  }
}

function comparisonOf(before: HearingTest, after: HearingTest): EarComparison {
  const pair = (test: HearingTest) =>
    testedEarsOf(test.ear === 'right' ? test : undefined, test.ear === 'left' ? test : undefined)
  return compareTests({ before: pair(before), after: pair(after) }, after.ear)
}

const earOf = (records: EarTestRecords) => Object.values(records)[0]?.ear

const unaidedWordsOf = (records: EarTestRecords, speechTests: readonly SpeechTest[]): ScoreTest | undefined =>
  wordsOf(earOf(records), 'unaided', speechTests) ?? wordsOf(earOf(records), 'sound-field', speechTests)

/** The score that is quoted: of the latest day, current, in quiet; of several levels that day the best. */
function wordsOf(
  ear: SpeechTest['ear'] | undefined,
  condition: SpeechTest['condition'],
  speechTests: readonly SpeechTest[],
): ScoreTest | undefined {
  return speechTests
    .filter(isScore)
    .filter((test) => test.ear === ear && test.condition === condition && test.state === 'current')
    .filter(({ material, noiseLevel }) => material === 'monosyllables' && noiseLevel === undefined)
    .toSorted(
      (a, b) =>
        b.performedOn.localeCompare(a.performedOn) || percentOf(b) - percentOf(a) || a.speechLevel - b.speechLevel,
    )[0]
}

/** The reception threshold that is quoted: the latest current one. */
function receptionOf(
  ear: SpeechTest['ear'] | undefined,
  condition: SpeechTest['condition'],
  speechTests: readonly SpeechTest[],
  tests: readonly HearingTest[],
): ReceptionReading | undefined {
  const [latest] = speechTests
    .filter(isReception)
    .filter((test) => test.ear === ear && test.condition === condition && test.state === 'current')
    .toSorted((a, b) => b.performedOn.localeCompare(a.performedOn) || b.at.localeCompare(a.at))
  return latest && readReception(latest, tests)
}

const percentOf = ({ right, items }: ScoreTest): number => (100 * right) / items
