import { meanAirBoneGap } from '@/lib/audiometry/air-bone-gap.ts'
import { type AverageResult, pureToneAverage } from '@/lib/audiometry/averages.ts'
import type { MeanDifference } from '@/lib/audiometry/differences.ts'
import { type GradeResult, gradeEar, gradeWho2021, type WhoGradeResult } from '@/lib/audiometry/grades.ts'
import { type LossTypeResult, typeOfLoss } from '@/lib/audiometry/type-of-loss.ts'
import { audiogramOf } from '@/lib/board/audiograms.ts'
import type { HearingTest, PointRoute } from '@/lib/board/records/hearing-test.ts'
import { type Ear, otherEar } from '@/lib/units/frequencies.ts'

/** What is computed from one test, and with the other ear's current test where the rule needs both ears. */
export type Measure =
  | { readonly kind: 'average'; readonly route: PointRoute; readonly result: AverageResult }
  | { readonly kind: 'gap'; readonly result: MeanDifference }
  | { readonly kind: 'type'; readonly result: LossTypeResult }
  | { readonly kind: 'grade'; readonly result: GradeResult }
  | { readonly kind: 'grade-better'; readonly result: WhoGradeResult; readonly betterEar: Ear | undefined }

type Tested = Pick<HearingTest, 'ear' | 'condition' | 'points'>

/** @param other the unaided test of the other ear that the better ear is sought with */
export function measuresOf(test: Tested, other: Tested | undefined): readonly Measure[] {
  if (test.condition !== 'unaided') return fieldMeasures(test)
  const air = audiogramOf(test.points, 'air')
  const bone = audiogramOf(test.points, 'bone')
  return [
    { kind: 'average', route: 'air', result: pureToneAverage(air, 'pta4-who') },
    { kind: 'average', route: 'air', result: pureToneAverage(air, 'pta4-aao') },
    { kind: 'gap', result: meanAirBoneGap({ air, bone }, 'pta4-aao') },
    { kind: 'type', result: typeOfLoss({ air, bone }, 'set-1') },
    { kind: 'grade', result: gradeEar(air, 'who-2021') },
    ...(other === undefined ? [] : [betterEarGrade(test, other)]),
  ]
}

/** Sound field and aided thresholds: averages only; gap, type and grade are rules for thresholds by earphones. */
function fieldMeasures({ condition, points }: Tested): readonly Measure[] {
  const route = condition === 'aided' ? 'aided' : 'sound-field'
  const levels = audiogramOf(points, route)
  return (['pta4-who', 'pta4-aao'] as const).map((id) => ({
    kind: 'average',
    route,
    result: pureToneAverage(levels, id),
  }))
}

function betterEarGrade(test: Tested, other: Tested): Measure {
  const own = audiogramOf(test.points, 'air')
  const others = audiogramOf(other.points, 'air')
  const result = gradeWho2021(test.ear === 'right' ? { right: own, left: others } : { right: others, left: own })
  return { kind: 'grade-better', result, betterEar: betterEarOf(result, test.ear) }
}

function betterEarOf({ averages, betterEarAverage }: WhoGradeResult, ear: Ear): Ear | undefined {
  if (betterEarAverage === undefined) return undefined
  return averages[ear].value === betterEarAverage ? ear : otherEar(ear)
}
