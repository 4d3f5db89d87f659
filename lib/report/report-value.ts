import type { AverageResult } from '../audiometry/averages.ts'
import type { Difference, MeanDifference } from '../audiometry/differences.ts'
import { type GapBin, gapBin } from '../audiometry/gap-closure.ts'
import type { Audiogram } from '../audiometry/thresholds.ts'
import type { ScattergramCell } from '../outcomes/scattergram-cell.ts'
import type { FrequencyHz } from '../units/frequencies.ts'

/** What stands in a cell of a report. What could not be computed says why; a cell that has no meaning is absent. */
export type ReportValue =
  /** dB HL; `censored`: a lower bound, because there was no response */
  | { readonly kind: 'level'; readonly value: number; readonly censored: boolean }
  /** dB */
  | { readonly kind: 'difference'; readonly difference: Difference }
  | { readonly kind: 'bin'; readonly bin: GapBin }
  | { readonly kind: 'score'; readonly right: number; readonly items: number }
  /** percentage points, positive is better */
  | { readonly kind: 'points'; readonly points: number }
  | { readonly kind: 'cell'; readonly cell: ScattergramCell }
  /** these frequencies were not measured on that occasion, or on one of the two */
  | { readonly kind: 'missing'; readonly frequencies: readonly FrequencyHz[] }
  | { readonly kind: 'absent'; readonly why: AbsentWhy }

export type AbsentWhy = 'no-outcome' | 'no-test' | 'could-not-test' | 'no-response' | 'another-level'

export const absent = (why: AbsentWhy): ReportValue => ({ kind: 'absent', why })

export function averageValue({ value, censored, missing }: AverageResult): ReportValue {
  return value === undefined ? { kind: 'missing', frequencies: missing } : { kind: 'level', value, censored }
}

export function meanValue(mean: MeanDifference | undefined): ReportValue {
  if (mean === undefined) return absent('no-test')
  return mean.difference === undefined
    ? { kind: 'missing', frequencies: mean.missing }
    : { kind: 'difference', difference: mean.difference }
}

export function binValue({ difference, missing }: MeanDifference): ReportValue {
  if (difference === undefined) return { kind: 'missing', frequencies: missing }
  const bin = gapBin(difference)
  return bin === undefined ? absent('no-response') : { kind: 'bin', bin }
}

export function levelAt(audiogram: Audiogram, frequency: FrequencyHz): ReportValue {
  const threshold = audiogram.get(frequency)
  if (threshold === undefined) return { kind: 'missing', frequencies: [frequency] }
  switch (threshold.kind) {
    case 'heard':
      return { kind: 'level', value: threshold.level, censored: false }
    case 'no-response':
      return { kind: 'level', value: threshold.limit, censored: true }
    case 'could-not-test':
      return absent('could-not-test')
    default:
      return threshold satisfies never
  }
}
