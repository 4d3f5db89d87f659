import { swappedEars } from '@/lib/audiometry/swapped-ears.ts'
import type { Audiogram } from '@/lib/audiometry/thresholds.ts'
import { audiogramOf } from '@/lib/board/audiograms.ts'
import type { HearingTest } from '@/lib/board/records/hearing-test.ts'
import { type CsvReading, type ImportedTest, readAudiogramCsv, testsOf } from '@/lib/interchange/audiogram-csv.ts'
import type { Ear } from '@/lib/units/frequencies.ts'
import { currentTest } from './tests-shown.ts'

/** What an import would do, before anything is entered. */
export interface ImportPreview {
  readonly reading: CsvReading
  readonly tests: readonly ImportedTest[]
  /** right and left look exchanged against the current tests */
  readonly earsLookSwapped: boolean
}

export function previewOf(text: string, known: readonly HearingTest[], dayWithoutDate: string): ImportPreview {
  const reading = readAudiogramCsv(text)
  const tests = testsOf(reading.entries, dayWithoutDate)
  return { reading, tests, earsLookSwapped: looksSwapped(tests, known) }
}

function looksSwapped(imported: readonly ImportedTest[], known: readonly HearingTest[]): boolean {
  const latest = (ear: Ear) => imported.findLast((test) => test.ear === ear && test.condition === 'unaided')
  const now = bothAir(latest('right'), latest('left'))
  const before = { right: currentTest(known, 'right'), left: currentTest(known, 'left') }
  const earlier = bothAir(before.right, before.left)
  if (now === undefined || earlier === undefined) return false
  return swappedEars(now, { date: before.right?.performedOn ?? '', air: earlier }).length > 0
}

type Tested = Pick<HearingTest, 'points'>

function bothAir(
  right: Tested | undefined,
  left: Tested | undefined,
): { right: Audiogram; left: Audiogram } | undefined {
  if (right === undefined || left === undefined) return undefined
  return { right: audiogramOf(right.points, 'air'), left: audiogramOf(left.points, 'air') }
}

/** Whether the import may begin: no fault left open, and every doubt looked at. */
export function mayImport(
  { reading, tests, earsLookSwapped }: ImportPreview,
  consent: { readonly goodRowsOnly: boolean; readonly earsCompared: boolean },
): boolean {
  if (reading.fileFaults.length > 0 || tests.length === 0) return false
  if (reading.faults.length > 0 && !consent.goodRowsOnly) return false
  return !earsLookSwapped || consent.earsCompared
}
