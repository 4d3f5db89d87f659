import type { HearingTest, TestState } from '@/lib/board/records/hearing-test.ts'
import type { SpeechTest } from '@/lib/board/records/speech-test.ts'
import { recordCode, speechTestCode } from '@/lib/interchange/record-code.ts'

export type CodedRecord =
  | { readonly kind: 'hearing'; readonly test: HearingTest }
  | { readonly kind: 'speech'; readonly test: SpeechTest }

export interface CodedTables {
  readonly tests: readonly HearingTest[]
  readonly speechTests: readonly SpeechTest[]
}

/** A record that was entered twice has one code; the one that counts answers for both. */
const precedence: readonly TestState[] = ['current', 'superseded', 'entered-in-error']

/** The record of the case that a code from paper stands for; undefined when there is none. */
export function findByCode(code: string, { tests, speechTests }: CodedTables): CodedRecord | undefined {
  const found: CodedRecord[] = [
    ...tests.filter((test) => recordCode(test) === code).map((test) => ({ kind: 'hearing' as const, test })),
    ...speechTests.filter((test) => speechTestCode(test) === code).map((test) => ({ kind: 'speech' as const, test })),
  ]
  return found.toSorted((a, b) => precedence.indexOf(a.test.state) - precedence.indexOf(b.test.state))[0]
}

/** Code of whatever stands in the place of a record that is no longer current. */
export function codeOfSuccessor({ kind, test }: CodedRecord, { tests, speechTests }: CodedTables): string | undefined {
  const successor = test.closing?.supersededBy
  if (kind === 'hearing') {
    const next = tests.find(({ id }) => id === successor)
    return next && recordCode(next)
  }
  const next = speechTests.find(({ id }) => id === successor)
  return next && speechTestCode(next)
}
