import type { HearingTest } from '../../board/records/hearing-test.ts'
import type { SpeechTest } from '../../board/records/speech-test.ts'
import { recordCode, speechTestCode } from '../record-code.ts'
import type { FhirReading, ReadHearing, ReadSpeech } from './read-bundle.ts'

/**
 * What an import would do with one test: enter it; nothing, since the board has the same; nothing, since the board has
 * another content under the same id, so that somebody has to compare; nothing, since the file itself says that it does not
 * count.
 */
export type Standing = 'new' | 'same' | 'differs' | 'twice-in-file' | 'does-not-count'

export interface Planned<T> {
  readonly read: T
  readonly standing: Standing
}

export interface FhirImportPlan {
  readonly tests: readonly Planned<ReadHearing>[]
  readonly speechTests: readonly Planned<ReadSpeech>[]
}

/** Holds what was read against the tests of the board. Tests are the same when their record codes are. */
export function importPlan(
  reading: Pick<FhirReading, 'tests' | 'speechTests'>,
  tests: readonly HearingTest[],
  speechTests: readonly SpeechTest[],
): FhirImportPlan {
  const stamp = { id: 'read', author: 'nobody', at: '2000-01-01T00:00:00.000Z', state: 'current' } as const
  return {
    tests: planned(reading.tests, tests, recordCode, ({ test }) =>
      recordCode({ ...stamp, origin: 'imported', ...test } as HearingTest),
    ),
    speechTests: planned(reading.speechTests, speechTests, speechTestCode, ({ test }) =>
      speechTestCode({ ...stamp, ...test } as SpeechTest),
    ),
  }
}

function planned<T extends ReadHearing | ReadSpeech, R extends HearingTest | SpeechTest>(
  reads: readonly T[],
  known: readonly R[],
  codeOfRecord: (record: R) => string,
  codeOfRead: (read: T) => string,
): Planned<T>[] {
  const counting = known.filter(({ state }) => state !== 'entered-in-error')
  const codes = new Set(counting.map(codeOfRecord))
  const ids = new Set(known.map(({ id }) => id))
  const seen = new Set<string>()
  const standingOf = (read: T): Standing => {
    const code = codeOfRead(read)
    if (codes.has(code)) return 'same'
    if (read.record !== undefined && ids.has(read.record)) return 'differs'
    if (read.state === 'entered-in-error') return 'does-not-count'
    if (seen.has(code)) return 'twice-in-file'
    seen.add(code)
    return 'new'
  }
  return inOrderOfDay(reads).map((read) => ({ read, standing: standingOf(read) }))
}

/** The earliest first, so that the latest of an ear and condition ends up current. */
const inOrderOfDay = <T extends ReadHearing | ReadSpeech>(reads: readonly T[]): T[] =>
  [...reads].sort((a, b) => a.test.performedOn.localeCompare(b.test.performedOn))
