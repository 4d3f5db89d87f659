import type { Messages } from '@/app/messages/use-messages.ts'
import type { AverageResult } from '@/lib/audiometry/averages.ts'
import type { MeanDifference } from '@/lib/audiometry/differences.ts'
import type { GainResult } from '@/lib/audiometry/gains.ts'
import type { GradeResult, WhoGradeResult } from '@/lib/audiometry/grades.ts'
import type { LossTypeResult } from '@/lib/audiometry/type-of-loss.ts'
import type { HowLine, MeasureCell } from './measure-row.ts'

type Words = Messages['measures']

/** The inputs of an average, what is missing, and the sum. */
export function averageLines(average: AverageResult, words: Words, inputsName = words.howWords.inputs): HowLine[] {
  const { inputs, missing } = average
  const listed = inputs.map(({ frequency, usedAs, how, threshold }) =>
    words.input(frequency, usedAs, threshold !== undefined && 'masked' in threshold && threshold.masked, how),
  )
  return [
    ...(listed.length > 0 ? [{ name: inputsName, text: `${listed.join(', ')} dB HL` }] : []),
    ...(missing.length > 0 ? [{ name: words.howWords.missing, text: words.missing(missing) }] : []),
    ...(average.value === undefined
      ? []
      : [
          {
            name: words.howWords.formula,
            text: words.meanFormula(
              inputs.map(({ usedAs }) => usedAs),
              averageText(average, words),
            ),
          },
        ]),
  ]
}

const averageText = ({ value, censored }: AverageResult, words: Words): string =>
  value === undefined ? words.noValue : words.level(value, censored)

function averageRemark({ missing, substituted }: AverageResult, words: Words): string | undefined {
  if (missing.length > 0) return words.missing(missing)
  if (substituted === undefined) return undefined
  return substituted.uncertain ? words.uncertain3000 : words.interpolated3000
}

/** Nothing at all was tested of it: the ear has no such measure. */
export function averageCell(average: AverageResult | undefined, words: Words): MeasureCell | undefined {
  if (average === undefined || average.inputs.length === 0) return undefined
  return {
    value: averageText(average, words),
    remark: averageRemark(average, words),
    how: averageLines(average, words),
    sources: [average.convention],
  }
}

export function gapCell(gap: MeanDifference | undefined, words: Words): MeasureCell | undefined {
  if (gap === undefined || gap.minuend.inputs.length === 0 || gap.subtrahend.inputs.length === 0) return undefined
  return {
    value: gap.difference === undefined ? words.noValue : words.difference(gap.difference),
    remark: gap.missing.length > 0 ? words.missing(gap.missing) : averageRemark(gap.minuend, words),
    how: differenceLines(gap, words, { minuend: words.howWords.air, subtrahend: words.howWords.bone }),
    sources: [gap.minuend.convention],
  }
}

interface DifferenceNames {
  readonly minuend: string
  readonly subtrahend: string
}

function differenceLines(of: MeanDifference, words: Words, names: DifferenceNames): readonly HowLine[] {
  const { minuend, subtrahend, difference } = of
  return [
    ...averageLines(minuend, words, names.minuend),
    ...averageLines(subtrahend, words, names.subtrahend),
    ...(difference === undefined
      ? []
      : [
          {
            name: words.howWords.formula,
            text: words.minusFormula(
              averageText(minuend, words),
              averageText(subtrahend, words),
              words.difference(difference),
            ),
          },
        ]),
  ]
}

export function typeCell(loss: LossTypeResult | undefined, words: Words): MeasureCell | undefined {
  if (loss === undefined || loss.air.inputs.length === 0) return undefined
  const { air, bone, gap, criteria, type, unknownBecause } = loss
  return {
    value: words.lossTypes[type],
    remark: unknownBecause && words.unknownBecause[unknownBecause],
    how: [
      ...averageLines(air, words, words.howWords.air),
      ...averageLines(bone, words, words.howWords.bone),
      {
        name: words.howWords.formula,
        text: words.typeFormula(
          averageText(air, words),
          averageText(bone, words),
          gap === undefined ? words.noValue : words.difference(gap),
        ),
      },
    ],
    sources: [criteria],
  }
}

export function gradeCell(result: GradeResult | undefined, words: Words): MeasureCell | undefined {
  if (result === undefined || result.average.inputs.length === 0) return undefined
  const { grade, orWorse, average, scale } = result
  return {
    value: grade === undefined ? words.noValue : words.gradeWords(grade, orWorse),
    remark: averageRemark(average, words),
    how: [
      ...averageLines(average, words),
      { name: words.howWords.formula, text: words.gradeFormula(averageText(average, words)) },
    ],
    sources: [scale],
  }
}

/** The grade of the person, from the better ear; none unless both ears have an average. */
export function betterEarCell(
  { grade, orWorse, averages, scale, unilateral }: WhoGradeResult,
  words: Words,
): MeasureCell | undefined {
  if (grade === undefined) return undefined
  return {
    value: words.gradeWords(grade, orWorse),
    remark: unilateral ? words.unilateral : undefined,
    how: [
      ...averageLines(averages.right, words, words.ears.right),
      ...averageLines(averages.left, words, words.ears.left),
    ],
    sources: [scale],
  }
}

/** @param days of the two tests: a gain between days far apart is not the device's alone */
export function gainCell(
  gain: GainResult | undefined,
  days: readonly HowLine[],
  words: Words,
): MeasureCell | undefined {
  const mean = gain?.means.find(({ set }) => set === 'pta4-who')
  if (gain === undefined || mean === undefined || gain.byFrequency.size === 0) return undefined
  const minuend = gain.measure.id === 'effective-gain' ? words.howWords.bone : words.howWords.soundField
  const high = gain.means.find(({ set }) => set === 'band-high')
  const byFrequency = [...gain.byFrequency].map(([frequency, by]) => words.atFrequency(frequency, words.difference(by)))
  return {
    value: mean.difference === undefined ? words.noValue : words.difference(mean.difference),
    remark: mean.missing.length > 0 ? words.missing(mean.missing) : high && missingHigh(high, words),
    how: [
      { name: words.howWords.byFrequency, text: byFrequency.join(', ') },
      ...differenceLines(mean, words, { minuend, subtrahend: words.howWords.aided }),
      ...days,
    ],
    sources: [gain.measure],
  }
}

const missingHigh = ({ missing }: MeanDifference, words: Words): string | undefined =>
  missing.length > 0 ? words.missing(missing) : undefined
