import type { Messages } from '@/app/messages/for-screens.ts'
import type { AverageResult } from '@/lib/audiometry/averages.ts'
import type { Difference, MeanDifference } from '@/lib/audiometry/differences.ts'
import type { TestMeasure } from './test-measures.ts'

export interface MeasureText {
  readonly name: string
  /** for a line in which several stand */
  readonly shortName: string
  readonly value: string
  /** the frequencies of the mean, in short */
  readonly over: string
  /** the whole convention with its source */
  readonly convention: string
}

/** A measure in words: "≥" before a bound, what is missing instead of a value that cannot be computed. */
export function measureText(measure: TestMeasure, { language, screens, words }: Messages): MeasureText {
  const { handout } = screens
  const number = new Intl.NumberFormat(language, { maximumFractionDigits: 1 })
  const names = { name: handout.measure[measure.kind], shortName: screens.screen.shortMeasure[measure.kind] }
  if (measure.kind === 'type') {
    const { criteria, type, air } = measure.loss
    const over = frequencies(air, number)
    return {
      ...names,
      value: handout.lossType[type],
      over,
      convention: handout.convention(over, `${criteria.source}, ${words.sourceStatus[criteria.status]}`),
    }
  }
  const average = measure.kind === 'gap' ? measure.mean.minuend : measure.average
  const { source, status } = average.convention
  const over = frequencies(average, number)
  const value = measure.kind === 'gap' ? gapText(measure.mean, number, handout) : averageText(average, number, handout)
  return { ...names, value, over, convention: handout.convention(over, `${source}, ${words.sourceStatus[status]}`) }
}

type HandoutWords = Messages['screens']['handout']

function averageText(average: AverageResult, number: Intl.NumberFormat, handout: HandoutWords): string {
  if (average.value === undefined) return handout.missing(inKhz(average.missing, number))
  return `${average.censored ? '≥ ' : ''}${number.format(average.value)} dB HL`
}

function gapText({ difference, missing }: MeanDifference, number: Intl.NumberFormat, handout: HandoutWords): string {
  if (difference === undefined) return handout.missing(inKhz(missing, number))
  if (difference.kind === 'undetermined') return handout.undetermined
  return `${signOf(difference)}${number.format(difference.value)} dB`
}

const signOf = ({ kind }: Difference): string =>
  ({ exact: '', 'at-least': '≥ ', 'at-most': '≤ ', undetermined: '' })[kind]

const frequencies = ({ convention }: AverageResult, number: Intl.NumberFormat): string =>
  inKhz(convention.frequencies, number)

const inKhz = (hz: readonly number[], number: Intl.NumberFormat): string =>
  `${hz.map((frequency) => number.format(frequency / 1000)).join(', ')} kHz`
