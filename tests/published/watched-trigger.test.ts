// Probabilities of the normal law: Abramowitz and Stegun, Handbook of Mathematical Functions, 1964, Table 26.1 (fifteen
// decimals there; ten are held here). Test-retest: ISO 8253-1:2010, A.3.2, as in iso-8253-1.test.ts: 2.5 dB for one
// threshold in the sound field up to 4 kHz, 3 dB for one by bone conduction. Two tests differ with sqrt(2) of that.

import { expect, it } from 'vitest'
import { type WatchedTrigger, watchedAt } from '../../lib/outcomes/watched-trigger.ts'
import { aidedCourse, courseVisit, sourced } from '../fixtures/ear-courses.ts'
import { checkValue } from './record-check.ts'

const table = [
  { z: 0, below: 0.5 },
  { z: 1, below: 0.8413447461 },
  { z: 1.5, below: 0.9331927987 },
  { z: 2, below: 0.9772498681 },
]
const rises = (amountDb: number): WatchedTrigger => ({
  measure: 'aided-threshold',
  from: 1000,
  to: 1000,
  change: 'rises-by',
  amountDb,
  reference: 'first-fitting',
})

it.each(table)('gives the probability of a change $z standard deviations beyond its limit', ({ z, below }) => {
  const sd = 2.5 * Math.SQRT2
  const watched = watchedAt(rises(15 - z * sd), aidedCourse(30, 45), 1)
  if (watched.kind !== 'judged') throw new TypeError('both visits have the threshold')
  checkValue({
    source: 'Abramowitz and Stegun 1964, Table 26.1, with ISO 8253-1:2010, A.3.2',
    what: `P(${z}), one aided threshold`,
    expected: below,
    actual: watched.probability.low,
    tolerance: 1e-10,
    why: 'ten of fifteen decimals',
  })
  expect(watched.probability.high).toBe(watched.probability.low)
})

it('combines a band as ISO 8253-1, A.2, combines uncorrelated contributions', () => {
  const gain = { measure: 'effective-gain', from: 2000, to: 4000, change: 'falls-by', amountDb: 10 } as const
  const against = (reference: WatchedTrigger['reference']) => ({ ...gain, reference })
  const sharedBone = watchedAt(against('first-fitting'), aidedCourse(30, 45), 1)
  const ownBone = {
    ...aidedCourse(30),
    visits: [30, 45].map((level, index) =>
      courseVisit(index === 0 ? 'first' : 'later', `2026-0${index + 1}-01`, {
        bone: sourced(`bone-${index}`, { 2000: 20, 3000: 20, 4000: 20 }),
        aided: sourced(`aided-${index}`, { 2000: level, 3000: level, 4000: level }),
      }),
    ),
  }
  const source = 'ISO 8253-1:2010, A.2 and A.3.2'
  const check = (what: string, expected: number, actual: number | undefined) =>
    checkValue({ source, what, expected, actual, tolerance: 1e-12, why: 'worked by hand from 2.5 and 3 dB' })
  check(
    'gain at 2, 3 and 4 kHz twice over one bone conduction: its error cancels',
    2.5 * Math.sqrt(2 / 3),
    sharedBone.kind === 'judged' ? sharedBone.sdDb : undefined,
  )
  const twice = watchedAt(against('first-fitting'), ownBone, 1)
  check(
    'gain at 2, 3 and 4 kHz twice with bone conduction of both days',
    Math.sqrt((2 * (2.5 ** 2 + 3 ** 2)) / 3),
    twice.kind === 'judged' ? twice.sdDb : undefined,
  )
})
