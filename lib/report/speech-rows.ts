import type { AverageResult } from '../audiometry/averages.ts'
import type { TestCondition } from '../board/records/hearing-test.ts'
import { isReception, isScore, type ScoreTest } from '../board/records/speech-test.ts'
import { scattergramCell } from '../outcomes/scattergram-cell.ts'
import type { OccasionTests } from './occasion-tests.ts'
import { absent, averageValue, type ReportValue } from './report-value.ts'

/** Speech level of the implant standards, dB SPL. Source: Maier et al. 2018 and 2022 (from memory, unconfirmed). */
const standardLevelDbSpl = 65

const inQuiet = ({ speech }: OccasionTests, condition: TestCondition): readonly ScoreTest[] =>
  speech
    .filter(isScore)
    .filter(
      (test) => test.condition === condition && test.material === 'monosyllables' && test.noiseLevel === undefined,
    )

/** Best monosyllable score in quiet by earphone; of equal ones that of the longer list, then the later one. */
export const wordScoreInQuiet = (of: OccasionTests): ScoreTest | undefined => best(inQuiet(of, 'unaided'))

/** Monosyllables in quiet at 65 dB SPL from the loudspeaker. */
export const wordScoreAt65 = (of: OccasionTests, condition: 'sound-field' | 'aided'): ScoreTest | undefined =>
  best(inQuiet(of, condition).filter(({ speechLevel }) => speechLevel === standardLevelDbSpl))

function best(tests: readonly ScoreTest[]): ScoreTest | undefined {
  return [...tests].sort(
    (a, b) =>
      b.right / b.items - a.right / a.items ||
      b.items - a.items ||
      b.performedOn.localeCompare(a.performedOn) ||
      a.id.localeCompare(b.id),
  )[0]
}

export const scoreValue = (test: ScoreTest | undefined): ReportValue =>
  test === undefined ? absent('no-test') : { kind: 'score', right: test.right, items: test.items }

const percent = ({ right, items }: ScoreTest): number => (100 * right) / items

export function scorePoints(before: ScoreTest | undefined, after: ScoreTest | undefined): ReportValue {
  if (before === undefined || after === undefined) return absent('no-test')
  if (before.speechLevel !== after.speechLevel) return absent('another-level')
  return { kind: 'points', points: percent(after) - percent(before) }
}

/** The scattergram cell of an average and a score; an average that is a lower bound has no cell. */
export function speechCell(average: AverageResult, score: ScoreTest | undefined): ReportValue {
  if (average.value === undefined) return averageValue(average)
  if (average.censored) return absent('no-response')
  return score === undefined
    ? absent('no-test')
    : { kind: 'cell', cell: scattergramCell(average.value, percent(score)) }
}

/** The speech reception threshold in quiet, the latest of the occasion. */
export function receptionLevel({ speech }: OccasionTests, condition: TestCondition): ReportValue {
  const latest = speech
    .filter(isReception)
    .filter((test) => test.condition === condition)
    .sort((a, b) => b.performedOn.localeCompare(a.performedOn) || b.at.localeCompare(a.at))[0]
  return latest === undefined ? absent('no-test') : { kind: 'level', value: latest.receptionThreshold, censored: false }
}
