import { swappedEars } from '@/lib/audiometry/swapped-ears.ts'
import type { Audiogram } from '@/lib/audiometry/thresholds.ts'
import { audiogramOf } from '@/lib/board/audiograms.ts'
import type { HearingTest } from '@/lib/board/records/hearing-test.ts'
import type { Ear } from '@/lib/units/frequencies.ts'
import { currentTest } from './tests-shown.ts'

/** Whether right and left of the latest of these tests look exchanged against the current ones. */
export function looksSwapped(imported: readonly EarTest[], known: readonly HearingTest[]): boolean {
  const latest = (ear: Ear) => imported.findLast((test) => test.ear === ear && test.condition === 'unaided')
  const now = bothAir(latest('right'), latest('left'))
  const before = { right: currentTest(known, 'right'), left: currentTest(known, 'left') }
  const earlier = bothAir(before.right, before.left)
  if (now === undefined || earlier === undefined) return false
  return swappedEars(now, { date: before.right?.performedOn ?? '', air: earlier }).length > 0
}

type EarTest = Pick<HearingTest, 'ear' | 'condition' | 'points'>
type Tested = Pick<HearingTest, 'points'>

function bothAir(
  right: Tested | undefined,
  left: Tested | undefined,
): { right: Audiogram; left: Audiogram } | undefined {
  if (right === undefined || left === undefined) return undefined
  return { right: audiogramOf(right.points, 'air'), left: audiogramOf(left.points, 'air') }
}
