import type { Measured } from './band-value.ts'
import type { EarCourse } from './ear-course.ts'
import { fourToneMean } from './four-tone-course.ts'
import type { Watched } from './verdict.ts'
import { type WatchedTrigger, watchedAt } from './watched-trigger.ts'

/** A fall of the benefit that counts as its loss, dB over four tones. Common practice, no source. */
export const lostBenefitDb = 10

const fall: WatchedTrigger = {
  measure: 'functional-gain',
  from: 500,
  to: 4000,
  change: 'falls-by',
  amountDb: lostBenefitDb,
  reference: 'best-so-far',
}

/** What a visit says of the benefit. `first`: there is nothing yet to hold it against. */
export type BenefitState = 'first' | 'held' | 'lost' | 'cannot-tell' | 'not-measured'

export interface BenefitAt {
  readonly visit: string
  readonly state: BenefitState
  /** functional gain over four tones, dB, with its test-retest standard deviation; absent where it was not measured */
  readonly gain?: Measured
  readonly fall?: Watched
}

/**
 * Whether the benefit of the device is still there, visit by visit: functional gain over 0.5, 1, 2 and 4 kHz, lost when
 * it has fallen by 10 dB or more from the best visit before. One ear has a course and no survival curve: that belongs to
 * several ears.
 * Checked by: tests/unit/visits/benefit-course.test.ts
 */
export function benefitCourse(course: EarCourse): readonly BenefitAt[] {
  return course.visits.map(({ visit, ear }, index) => {
    const gain = fourToneMean('functional-gain', ear, course.before)
    if (gain === undefined) return { visit, state: 'not-measured' }
    const watched = watchedAt(fall, course, index)
    return { visit, state: stateOf(watched), gain, fall: watched }
  })
}

function stateOf(watched: Watched): BenefitState {
  if (watched.kind === 'absent') return 'first'
  return ({ met: 'lost', 'not-met': 'held', 'cannot-tell': 'cannot-tell' } as const)[watched.verdict]
}
