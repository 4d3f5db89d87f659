import { averageConventions, pureToneAverage } from '../audiometry/averages.ts'
import { type Difference, meanDifference } from '../audiometry/differences.ts'
import type { Audiogram, Threshold } from '../audiometry/thresholds.ts'
import { type Scored, scoreNumber } from '../forecast/scoring.ts'
import { scorableFrom } from '../forecast/sealed-numbers.ts'
import type { FrequencyHz } from '../units/frequencies.ts'
import { fourTonesHz } from './four-tone-course.ts'
import type { SeriesCase, SeriesOccasion, SeriesVisit } from './series-case.ts'

/** The range over which sites are compared: 4, 6 and 8 kHz are always there, or named as missing. */
export const seriesFrequenciesHz = [
  250, 500, 1000, 2000, 3000, 4000, 6000, 8000,
] as const satisfies readonly FrequencyHz[]

/** At which visit a result is read: `latest` is the last one with an aided test, `yearly` the last of these. */
export const resultPlaces = [
  'latest',
  'first-fitting',
  '1-month',
  '3-months',
  '6-months',
  '12-months',
  'yearly',
] as const satisfies readonly ('latest' | SeriesOccasion)[]
export type ResultAt = (typeof resultPlaces)[number]

/** An ear before its operation and at the visit that counts, in the numbers that a series adds up. */
export interface EarResult {
  readonly case: SeriesCase
  readonly before: SeriesVisit | undefined
  readonly after: SeriesVisit | undefined
  /** bone conduction of the visit, or else before the operation */
  readonly bone: Audiogram
  /** effective gain, dB; "no response" on either side leaves no number */
  readonly gainDb: ReadonlyMap<FrequencyHz, number>
  /** unaided threshold before (sound field, or else by air) less aided threshold, dB: also where a bone vibrator gives nothing */
  readonly functionalGainDb: ReadonlyMap<FrequencyHz, number>
  readonly meanGainDb: number | undefined
  /** aided threshold, mean of 0.5, 1, 2 and 4 kHz */
  readonly aidedFourTone: number | undefined
  /** aided threshold less bone conduction, mean of 0.5, 1, 2 and 3 kHz */
  readonly residualGap: Difference | undefined
  /** mean of 0.5, 1, 2 and 3 kHz: air conduction before, aided after */
  readonly averageBefore: number | undefined
  readonly averageAfter: number | undefined
  /** bone conduction after less before, mean of 1, 2 and 4 kHz; positive is worse */
  readonly boneChange: number | undefined
  readonly score: Scored | undefined
}

export function earResult(of: SeriesCase, at: ResultAt): EarResult {
  const before = of.visits.find(({ occasion }) => occasion === 'before')
  const after = visitAt(of, at)
  const bone = after !== undefined && after.bone.size > 0 ? after.bone : (before?.bone ?? noThresholds)
  const aided = after?.aided ?? noThresholds
  const gainDb = gainsOf(bone, aided)
  const unaided = before !== undefined && before.soundField.size > 0 ? before.soundField : (before?.air ?? noThresholds)
  const aidedFourTone = meanOfFour((frequency) => levelAt(aided, frequency))
  return {
    case: of,
    before,
    after,
    bone,
    gainDb,
    functionalGainDb: gainsOf(unaided, aided),
    meanGainDb: meanOfFour((frequency) => gainDb.get(frequency)),
    aidedFourTone,
    residualGap: aided.size === 0 ? undefined : meanDifference(aided, bone, 'pta4-aao').difference,
    averageBefore: before && averageOf(before.air),
    averageAfter: averageOf(aided),
    boneChange: before && after && boneChangeOf(before.bone, after.bone),
    score: scoreOf(of, aidedFourTone),
  }
}

const noThresholds: Audiogram = new Map()

function visitAt({ visits }: SeriesCase, at: ResultAt): SeriesVisit | undefined {
  if (at === 'latest') return visits.findLast(({ occasion, aided }) => occasion !== 'before' && aided.size > 0)
  return visits.findLast(({ occasion }) => occasion === at)
}

export const levelAt = (audiogram: Audiogram, frequency: FrequencyHz): number | undefined =>
  levelOf(audiogram.get(frequency))

const levelOf = (threshold: Threshold | undefined): number | undefined =>
  threshold?.kind === 'heard' ? threshold.level : undefined

function gainsOf(from: Audiogram, aided: Audiogram): ReadonlyMap<FrequencyHz, number> {
  const gains = new Map<FrequencyHz, number>()
  for (const [frequency, threshold] of aided) {
    const level = levelOf(threshold)
    const by = levelAt(from, frequency)
    if (level !== undefined && by !== undefined) gains.set(frequency, by - level)
  }
  return gains
}

/** Mean of 0.5, 1, 2 and 4 kHz; absent unless all four are there. */
export function meanOfFour(at: (frequency: FrequencyHz) => number | undefined): number | undefined {
  let sum = 0
  for (const frequency of fourTonesHz) {
    const value = at(frequency)
    if (value === undefined) return undefined
    sum += value
  }
  return sum / fourTonesHz.length
}

/** Only where every level was heard: a bound is no number to average over ears. */
function averageOf(audiogram: Audiogram): number | undefined {
  if (audiogram.size === 0) return undefined
  const { value, censored } = pureToneAverage(audiogram, 'pta4-aao')
  return censored ? undefined : value
}

function boneChangeOf(before: Audiogram, after: Audiogram): number | undefined {
  const { frequencies } = averageConventions['hf-bone']
  let sum = 0
  for (const frequency of frequencies) {
    const [was, is] = [levelAt(before, frequency), levelAt(after, frequency)]
    if (was === undefined || is === undefined) return undefined
    sum += is - was
  }
  return sum / frequencies.length
}

function scoreOf({ forecast }: SeriesCase, aidedFourTone: number | undefined): Scored | undefined {
  if (forecast === undefined || aidedFourTone === undefined) return undefined
  const score = scoreNumber(scorableFrom(forecast), aidedFourTone)
  return score.kind === 'scored' ? score : undefined
}
