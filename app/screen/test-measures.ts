import { meanAirBoneGap } from '@/lib/audiometry/air-bone-gap.ts'
import { type AverageResult, pureToneAverage } from '@/lib/audiometry/averages.ts'
import type { MeanDifference } from '@/lib/audiometry/differences.ts'
import { type LossTypeResult, typeOfLoss } from '@/lib/audiometry/type-of-loss.ts'
import { audiogramOf } from '@/lib/board/audiograms.ts'
import type { HearingTest } from '@/lib/board/records/hearing-test.ts'

/** Every mean here is over 0.5, 1, 2 and 4 kHz, so that those of one ear can be held against each other. */
const set = 'pta4-who'

/** What is read off one test beside its thresholds, each with the convention it follows. */
export type TestMeasure =
  | { readonly kind: 'air' | 'bone' | 'sound-field' | 'aided'; readonly average: AverageResult }
  | { readonly kind: 'gap'; readonly mean: MeanDifference }
  | { readonly kind: 'type'; readonly loss: LossTypeResult }

/** Averages of every route that was tested, and for air with bone conduction the gap and the type of loss. */
export function testMeasures({ points, condition }: Pick<HearingTest, 'points' | 'condition'>): readonly TestMeasure[] {
  if (condition !== 'unaided') {
    const average = pureToneAverage(audiogramOf(points, condition), set)
    return [{ kind: condition, average }]
  }
  const air = audiogramOf(points, 'air')
  const bone = audiogramOf(points, 'bone')
  if (bone.size === 0) return [{ kind: 'air', average: pureToneAverage(air, set) }]
  const mean = meanAirBoneGap({ air, bone }, set)
  return [
    { kind: 'air', average: mean.minuend },
    { kind: 'bone', average: mean.subtrahend },
    { kind: 'gap', mean },
    { kind: 'type', loss: typeOfLoss({ air, bone }, 'set-1') },
  ]
}
