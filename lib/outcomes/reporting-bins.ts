import { type GapBin, gapBin, gapBins } from '../audiometry/gap-closure.ts'
import { proportionSummary } from './proportions.ts'
import { fewestEars } from './series-mean.ts'
import type { EarResult } from './series-result.ts'

export interface BinShare {
  readonly count: number
  readonly total: number
  /** Wilson limits of the share at 95 %; null with fewer than `fewestEars` */
  readonly low: number | null
  readonly high: number | null
}

export interface ReportingBins {
  /** aided threshold less bone conduction, mean of 0.5, 1, 2 and 3 kHz, in the bins of the air-bone gap */
  readonly bins: readonly (BinShare & { readonly bin: GapBin })[]
  /** "no response" leaves more than one bin possible */
  readonly undecided: number
  readonly missing: number
  /** bone conduction worse by more than 10 dB, mean of 1, 2 and 4 kHz */
  readonly innerEarLoss: BinShare
  readonly boneMissing: number
}

/** Loss of bone conduction, dB, beyond which it is reported as one. AAO-HNS 1995, from memory, unconfirmed. */
export const innerEarLossDb = 10

/**
 * Gap bins of a series.
 * Source: AAO-HNS 1995, by analogy: a device closes no gap, and what the aided threshold lacks of the bone conduction takes
 * its place (common practice in reports of such devices, no source). Checked by: tests/unit/series/reporting-bins.test.ts
 */
export function reportingBins(results: readonly EarResult[]): ReportingBins {
  const gaps = results.flatMap(({ residualGap }) => residualGap ?? [])
  const known = gaps.map(gapBin)
  const total = known.filter((bin) => bin !== undefined).length
  const changes = results.flatMap(({ boneChange }) => boneChange ?? [])
  return {
    bins: gapBins.map((bin) => ({ bin, ...share(known.filter((each) => each === bin).length, total) })),
    undecided: gaps.length - total,
    missing: results.length - gaps.length,
    innerEarLoss: share(changes.filter((change) => change > innerEarLossDb).length, changes.length),
    boneMissing: results.length - changes.length,
  }
}

function share(count: number, total: number): BinShare {
  if (total < fewestEars) return { count, total, low: null, high: null }
  const { low, high } = proportionSummary({ events: count, total }).wilson
  return { count, total, low, high }
}
