import type { Ear, FrequencyHz } from '../units/frequencies.ts'
import { airBoneGaps, meanAirBoneGap } from './air-bone-gap.ts'
import { type AsymmetryResult, asymmetry, asymmetryRules } from './asymmetry.ts'
import { type AverageId, type AverageResult, averageConventions, pureToneAverage } from './averages.ts'
import { type ChangeResult, changeBy, changeCriteria } from './change-criteria.ts'
import type { Difference, DifferenceSetId, MeanDifference } from './differences.ts'
import { type InnerEarForAge, innerEarForAge } from './expected-for-age.ts'
import { airChange, boneChange, type GainResult } from './gains.ts'
import { type GapClosureResult, gapClosure } from './gap-closure.ts'
import {
  type BiapBinauralResult,
  biapBinaural,
  type GradeResult,
  gradeEar,
  gradeScales,
  gradeWho2021,
  type WhoGradeResult,
} from './grades.ts'
import type { AgeGroup } from './iso-7029.ts'
import type { BeforeAndAfter, BothEars } from './pairs.ts'
import { type ThresholdChange, thresholdChanges } from './test-retest.ts'
import type { TestedEar, TestedEars } from './tested-ear.ts'
import { type LossTypeResult, lossCriteria, typeOfLoss } from './type-of-loss.ts'

const gapSets: readonly DifferenceSetId[] = ['pta4-aao', 'pta4-who', 'pta3', 'hf-bone']
const boneAverages: readonly AverageId[] = ['pta4-who', 'pta4-aao', 'pta3', 'hf-bone']

/** What a surgeon quotes of one ear from one test without a device. */
export interface EarMeasures {
  readonly airAverages: readonly AverageResult[]
  readonly boneAverages: readonly AverageResult[]
  readonly grades: readonly GradeResult[]
  readonly types: readonly LossTypeResult[]
  readonly gaps: ReadonlyMap<FrequencyHz, Difference>
  readonly meanGaps: readonly MeanDifference[]
  /** Absent while age and sex are unknown. */
  readonly innerEarForAge?: InnerEarForAge
}

export interface TestMeasures extends BothEars<EarMeasures> {
  readonly who: WhoGradeResult
  readonly biapBinaural: BiapBinauralResult
  readonly asymmetries: readonly AsymmetryResult[]
}

export interface MeasuredTest {
  readonly ears: TestedEars
  readonly group?: AgeGroup
  /** Percent correct, 0 to 100. */
  readonly wordScores?: BothEars<number>
}

/**
 * All measures of one test of both ears, each by every convention, so that the screen only chooses.
 * @throws RangeError when a level, frequency, score or group is out of domain
 */
export function measuresOfTest({ ears, group, wordScores }: MeasuredTest): TestMeasures {
  const audiograms = { right: ears.right.air, left: ears.left.air }
  const input = wordScores === undefined ? { audiograms } : { audiograms, wordScores }
  return {
    right: measuresOfEar(ears.right, group),
    left: measuresOfEar(ears.left, group),
    who: gradeWho2021(audiograms),
    biapBinaural: biapBinaural(audiograms),
    asymmetries: Object.values(asymmetryRules).map(({ id }) => asymmetry(input, id)),
  }
}

function measuresOfEar(tested: TestedEar, group: AgeGroup | undefined): EarMeasures {
  const { air, bone } = tested
  return {
    airAverages: Object.values(averageConventions).map(({ id }) => pureToneAverage(air, id)),
    boneAverages: boneAverages.map((id) => pureToneAverage(bone, id)),
    grades: Object.values(gradeScales).map(({ id }) => gradeEar(air, id)),
    types: Object.values(lossCriteria).map(({ id }) => typeOfLoss(tested, id)),
    gaps: airBoneGaps(tested),
    meanGaps: gapSets.map((set) => meanAirBoneGap(tested, set)),
    ...(group && { innerEarForAge: innerEarForAge(bone, group) }),
  }
}

/** What happened to one ear between two tests without a device. */
export interface EarComparison {
  readonly closure: GapClosureResult
  readonly airChange: GainResult
  readonly boneChange: GainResult
  readonly airThresholds: readonly ThresholdChange[]
  readonly boneThresholds: readonly ThresholdChange[]
  readonly criteria: readonly ChangeResult[]
}

/**
 * All measures of change of one ear from an earlier to a later test.
 * @throws RangeError when a level, frequency or score is out of domain
 */
export function compareTests(
  tests: BeforeAndAfter<TestedEars>,
  ear: Ear,
  wordScores?: BeforeAndAfter<number>,
): EarComparison {
  const pair = { before: tests.before[ear], after: tests.after[ear] }
  const air = { before: pair.before.air, after: pair.after.air }
  const bone = { before: pair.before.bone, after: pair.after.bone }
  const input = wordScores === undefined ? { audiograms: air } : { audiograms: air, wordScores }
  return {
    closure: gapClosure(pair),
    airChange: airChange(air),
    boneChange: boneChange(bone),
    airThresholds: thresholdChanges('air', air),
    boneThresholds: thresholdChanges('bone', bone),
    criteria: Object.values(changeCriteria).map(({ id }) => changeBy(input, id)),
  }
}
