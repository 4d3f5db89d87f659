import type { HearingTest } from '@/lib/board/records/hearing-test.ts'
import { type CsvReading, type ImportedTest, readAudiogramCsv, testsOf } from '@/lib/interchange/audiogram-csv.ts'
import { looksSwapped } from './ears-of-import.ts'

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

/** Whether the import may begin: no fault left open, and every doubt looked at. */
export function mayImport(
  { reading, tests, earsLookSwapped }: ImportPreview,
  consent: { readonly goodRowsOnly: boolean; readonly earsCompared: boolean },
): boolean {
  if (reading.fileFaults.length > 0 || tests.length === 0) return false
  if (reading.faults.length > 0 && !consent.goodRowsOnly) return false
  return !earsLookSwapped || consent.earsCompared
}
