import { type SpeechToneAgreement, speechToneAgreement } from '@/lib/audiometry/speech-agreement.ts'
import { audiogramOf } from '@/lib/board/audiograms.ts'
import type { HearingTest } from '@/lib/board/records/hearing-test.ts'
import type { ReceptionTest } from '@/lib/board/records/speech-test.ts'
import { isHeldAgainst } from '@/lib/board/tested-ears.ts'

/** A speech reception threshold and what the tones of the same day say of it. */
export interface ReceptionReading {
  readonly kind: 'reception'
  readonly test: ReceptionTest
  /** Absent for a threshold with a device, and where that ear has no audiogram of the day. */
  readonly tones?: { readonly audiogram: HearingTest; readonly agreement: SpeechToneAgreement }
}

/** @param tests of the case; those entered in error are left out */
export function readReception(test: ReceptionTest, tests: readonly HearingTest[]): ReceptionReading {
  const [audiogram] = tests
    .filter((candidate) => candidate.condition === 'unaided' && candidate.state !== 'entered-in-error')
    .filter((candidate) => isHeldAgainst(candidate, test))
    .toSorted((a, b) => Number(b.state === 'current') - Number(a.state === 'current') || b.at.localeCompare(a.at))
  if (audiogram === undefined) return { kind: 'reception', test }
  const agreement = speechToneAgreement(audiogramOf(audiogram.points, 'air'), test.receptionThreshold)
  return { kind: 'reception', test, tones: { audiogram, agreement } }
}
