import type { Audiogram } from '../audiometry/thresholds.ts'
import type { EvidenceSource } from '../devices/evidence-source.ts'
import { aidedIndex, type EarIndex, type ListeningCondition, unaidedIndex } from '../speech/ear-index.ts'
import { type Range, studentDeviate, z50, z80 } from './distribution.ts'
import { evidenceFrom } from './evidence.ts'
import { fourFrequenciesHz } from './mean-of-four.ts'
import { type Expected, thresholdsMovedBy } from './moved-thresholds.ts'
import {
  absent,
  type Basis,
  type BasisInput,
  combinedSd,
  type Prediction,
  type Remark,
  type Spread,
  sharesOf,
} from './prediction.ts'
import { type SpeechCondition, speechConditionChoice } from './speech-conditions.ts'

/** Expected thresholds of an ear and what makes them unsure as a whole. */
export interface ExpectedEar {
  readonly thresholds: readonly Expected[]
  readonly bone: Audiogram
  /**
   * Independent causes, dB, each moving all thresholds together: an index weighs many bands, so what moves single
   * frequencies to either side averages out, and what moves the mean does not.
   */
  readonly spread: Spread
  /** of the spread, where it was learned from few ears */
  readonly degreesOfFreedom?: number | undefined
  readonly sources: readonly EvidenceSource[]
}

/** How the index of an ear is computed: by its air conduction, or by aided thresholds in the field. */
export type IndexOf = 'unaided-index' | 'aided-index'

/**
 * Speech intelligibility index (0 to 1) to be expected, ANSI S3.5-1997, with intervals moved along the index: all
 * thresholds better or worse by the stated spread. The error of the index itself is not in them.
 * @returns an upper bound where a threshold is only known to be at least so bad; absent unless 0.5, 1, 2 and 4 kHz are
 * there
 * Checked by: tests/unit/forecast/speech.test.ts
 */
export function indexForecast(of: IndexOf, ear: ExpectedEar, { listening, ...condition }: SpeechCondition): Prediction {
  if (!coversFour(ear.thresholds)) return absent('a-frequency-is-missing')
  const at = (movedDb: number) => indexAt(of, ear, listening, movedDb)
  const middle = at(0)
  const levels = levelsOf(condition)
  if (middle.bound === 'upper-bound') {
    const basis = basisOf(of, ear, { levels, middle, shares: ear.spread })
    return { kind: 'at-most', value: middle.index, basis }
  }
  const sd = combinedSd(ear.spread)
  const within = (z: number): Range => {
    const movedDb = sd * (ear.degreesOfFreedom === undefined ? z : studentDeviate(z, ear.degreesOfFreedom))
    return ordered(at(movedDb).index, middle.index, at(-movedDb).index)
  }
  const interval50 = within(z50)
  const interval = hullOf(within(z80), interval50)
  const perDb = sd === 0 ? 0 : (interval.high - interval.low) / (2 * z80 * sd)
  const basis = basisOf(of, ear, { levels, middle, shares: scaled(ear.spread, perDb) })
  return { kind: 'estimate', value: middle.index, interval50, interval, basis }
}

/** Louder is not always better: close to loud speech a better threshold can lower the level-distortion factor. */
const ordered = (...values: readonly number[]): Range => ({ low: Math.min(...values), high: Math.max(...values) })

/** The smallest range that holds both. */
export const hullOf = (a: Range, b: Range): Range => ({ low: Math.min(a.low, b.low), high: Math.max(a.high, b.high) })

export const coversFour = (thresholds: readonly Expected[]): boolean =>
  fourFrequenciesHz.every((wanted) => thresholds.some(({ frequency }) => frequency === wanted))

export function indexAt(of: IndexOf, ear: ExpectedEar, listening: ListeningCondition, movedDb: number): EarIndex {
  const thresholds = thresholdsMovedBy(ear.thresholds, movedDb)
  switch (of) {
    case 'unaided-index':
      return unaidedIndex({ air: thresholds, bone: ear.bone }, listening)
    case 'aided-index':
      return aidedIndex({ aided: thresholds, bone: ear.bone }, listening)
    default:
      return of satisfies never
  }
}

export const scaled = (spread: Spread, factor: number): Spread =>
  Object.fromEntries(Object.entries(spread).map(([cause, sd]) => [cause, sd * factor]))

const levelsOf = ({ speechDbSpl, noiseDbSpl }: Omit<SpeechCondition, 'listening'>): readonly BasisInput[] => [
  { name: 'speech-level', unit: 'dB SPL', value: speechDbSpl },
  ...(noiseDbSpl === undefined ? [] : [{ name: 'noise-level', unit: 'dB SPL', value: noiseDbSpl } as const]),
]

interface IndexFacts {
  readonly levels: readonly BasisInput[]
  readonly middle: EarIndex
  readonly shares: Spread
}

function basisOf(of: IndexOf, ear: ExpectedEar, { levels, middle, shares }: IndexFacts): Basis {
  const name = of === 'aided-index' ? 'aided-thresholds' : 'unaided-thresholds'
  const { procedure, treatment } = middle
  const remarks: Remark[] = [
    ...(middle.heldHz.length > 0 ? (['bands-held'] as const) : []),
    ...(middle.beyondLimitHz.length > 0 ? (['threshold-is-a-bound'] as const) : []),
  ]
  return {
    formula: of,
    inputs: [...levels, ...ear.thresholds.map((threshold) => thresholdInput(name, threshold))],
    sources: [
      evidenceFrom('speech-intelligibility-index', procedure),
      evidenceFrom(treatment.id, treatment),
      speechConditionChoice,
      ...ear.sources,
    ],
    shares: sharesOf(shares),
    remarks,
  }
}

const thresholdInput = (
  name: 'aided-thresholds' | 'unaided-thresholds',
  { frequency, valueDbHl, floorDbHl, isBound }: Expected,
): BasisInput => ({
  name,
  unit: 'dB HL',
  value: Math.max(floorDbHl, valueDbHl),
  frequency,
  ...(isBound ? { censored: true as const } : {}),
})
