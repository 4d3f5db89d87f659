import { repeatability } from '../audiometry/test-retest.ts'
import type { Audiogram } from '../audiometry/thresholds.ts'
import type { Actuator } from '../devices/drives.ts'
import type { Scenario } from '../devices/scenario.ts'
import type { SealedForecast } from '../devices/sealed-forecast.ts'
import type { SealedQuantity } from '../devices/sealed-numbers.ts'
import type { MiddleEar } from '../middle-ear/drive-change.ts'
import type { FrequencyHz } from '../units/frequencies.ts'
import { z80 } from './distribution.ts'
import { contradictionIn } from './findings.ts'
import { lossByFrequency } from './loss-by-frequency.ts'
import type { DriveLoss } from './loss-model.ts'
import { fourFrequenciesHz } from './mean-of-four.ts'
import { modelSdDb } from './model-discrepancy.ts'
import { normalLogDensity } from './normal-density.ts'
import { earChangesOf } from './scenario.ts'

/** What may stand behind a miss: something that happened to the ear, or an inner ear that changed as was measured. */
export type Cause = { readonly kind: 'scenario'; readonly scenario: Scenario } | { readonly kind: 'inner-ear' }

/** One cause with how well it fits. */
export interface TriedCause {
  readonly cause: Cause
  /** how many times as likely as the forecast it makes the measured thresholds */
  readonly likelihoodRatio: number
  /** expected change of the aided threshold, dB; positive is worse */
  readonly shiftDb: ReadonlyMap<FrequencyHz, number>
}

export interface ExplainedMiss {
  readonly kind: 'compared'
  /** at which the comparison was made */
  readonly frequencies: readonly FrequencyHz[]
  /** every cause that was tried, the best first */
  readonly tried: readonly TriedCause[]
  /** the best likelihood ratio divided by the number of causes tried */
  readonly penalisedRatio: number
  /** at most this probable, were the forecast right, that the best of so many causes would fit as well as this */
  readonly chanceAtMost: number
  readonly verdict: 'explained' | 'no-better-than-chance'
}

export type MissExplanation =
  | ExplainedMiss
  /** fewer than two frequencies with both, or nothing that this device at this site could tell */
  | { readonly kind: 'absent'; readonly reason: 'too-few-frequencies' | 'nothing-to-try' }

/** Below this chance a cause is said to explain the miss. Common practice, no source. */
export const explainedBelow = 0.05

export interface MissInputs {
  readonly sealed: SealedForecast
  /** thresholds of the visit in the sound field with the device */
  readonly aided: Audiogram
  /** bone conduction of the visit, where it was measured */
  readonly bone?: Audiogram | undefined
  readonly middleEar: MiddleEar
}

/**
 * Which of the things that the model knows makes the result of a visit most likely, and whether that is more than luck.
 *
 * Each cause moves the sealed expectation and widens it by its own uncertainty; the likelihood of all measured thresholds
 * together under it is divided by that under the forecast as it was sealed. The search is paid for: were the forecast right, the
 * mean of the ratios of K causes would be expected to be 1, so by Markov's inequality the best of them exceeds K / p with a
 * probability of at most p. Hence the chance given here: K / ratio, at most 1.
 *
 * Frequencies of one ear go together; their correlation is the one at which the sealed spread of the four-tone mean follows from the
 * sealed spreads at the four tones. Results without a response are left out. Student t is taken as normal.
 * What it cannot know: causes that are not on the list; that two act together.
 * @throws RangeError when a sealed scenario is out of its domain
 * Source: Royall, Statistical Evidence, 1997, section 1.4 (bound of the likelihood ratio, from memory); Vovk and Wang, Ann Stat 49:1736-1754, 2021
 * (mean of e-values, from memory). Checked by: tests/property/explained-miss.test.ts
 */
export function explainMiss({ sealed, aided, bone, middleEar }: MissInputs): MissExplanation {
  const points = sealed.byFrequency.flatMap(({ frequency, aidedThreshold }) => {
    const measured = aided.get(frequency)
    const expected = centreOf(aidedThreshold)
    return measured?.kind !== 'heard' || expected === undefined
      ? []
      : [{ frequency, error: measured.level - expected.mean, sd: expected.sd }]
  })
  if (points.length < 2) return { kind: 'absent', reason: 'too-few-frequencies' }
  const frequencies = points.map(({ frequency }) => frequency)
  const errors = points.map(({ error }) => error)
  const covariance = sealedCovariance(
    points.map(({ sd }) => sd),
    correlationOf(sealed),
  )
  const asSealed = normalLogDensity(errors, covariance)
  const tried = shiftsToTry({ sealed, bone, middleEar }, frequencies).map(({ cause, shifts, common, own }) => {
    const moved = errors.map((error, i) => error - (shifts[i] ?? 0))
    const wider = covariance.map((row, i) =>
      row.map((value, j) => value + (common[i] ?? 0) * (common[j] ?? 0) + (i === j ? (own[i] ?? 0) ** 2 : 0)),
    )
    return {
      cause,
      likelihoodRatio: Math.exp(normalLogDensity(moved, wider) - asSealed),
      shiftDb: new Map(frequencies.map((frequency, i) => [frequency, shifts[i] ?? 0])),
    }
  })
  const ranked = tried.toSorted((a, b) => b.likelihoodRatio - a.likelihoodRatio)
  const best = ranked[0]
  if (best === undefined) return { kind: 'absent', reason: 'nothing-to-try' }
  const penalisedRatio = best.likelihoodRatio / ranked.length
  const chanceAtMost = Math.min(1, 1 / penalisedRatio)
  const verdict = chanceAtMost <= explainedBelow ? 'explained' : 'no-better-than-chance'
  return { kind: 'compared', frequencies, tried: ranked, penalisedRatio, chanceAtMost, verdict }
}

/** Mean before its limits, and standard deviation; from the 80 % interval where nothing more was sealed. */
function centreOf(sealed: SealedQuantity): { readonly mean: number; readonly sd: number } | undefined {
  if (sealed.kind !== 'estimate') return undefined
  const { value, interval, distribution } = sealed
  if (distribution !== undefined) return distribution
  const sd = (interval.high - interval.low) / (2 * z80)
  return sd > 0 ? { mean: value, sd } : undefined
}

/** Where the four-tone mean was not sealed with a spread. Status: assumption. */
const assumedCorrelation = 0.5
const mostCorrelation = 0.95

/** 16 var(mean) = sum of var + 2 r sum of products, solved for r. */
function correlationOf({ byFrequency, fourTone }: SealedForecast): number {
  const mean = centreOf(fourTone.aidedThreshold)
  const sds = byFrequency.flatMap(({ frequency, aidedThreshold }) => {
    const centre = fourFrequenciesHz.some((one) => one === frequency) ? centreOf(aidedThreshold) : undefined
    return centre === undefined ? [] : [centre.sd]
  })
  if (mean === undefined || sds.length !== fourFrequenciesHz.length) return assumedCorrelation
  const sum = sds.reduce((total, sd) => total + sd, 0)
  const squares = sds.reduce((total, sd) => total + sd ** 2, 0)
  const products = (sum ** 2 - squares) / 2
  const wanted = (sds.length ** 2 * mean.sd ** 2 - squares) / (2 * products)
  return Math.min(mostCorrelation, Math.max(0, wanted))
}

const sealedCovariance = (sds: readonly number[], correlation: number): readonly (readonly number[])[] =>
  sds.map((a, i) => sds.map((b, j) => (i === j ? a * b : correlation * a * b)))

/** What a cause does to the expectation: the shift, what moves all frequencies together, and what each has for itself. dB. */
interface Shift {
  readonly cause: Cause
  readonly shifts: readonly number[]
  readonly common: readonly number[]
  readonly own: readonly number[]
}

/** A cause that moves nothing by this much would fit as well as the forecast whatever was measured. */
const leastShiftDb = 2

/** Which causes are tried is settled by ear, device and what was measured, never by the result itself. */
function shiftsToTry(
  { sealed, bone, middleEar }: Omit<MissInputs, 'aided'>,
  frequencies: readonly FrequencyHz[],
): readonly Shift[] {
  const ofChain = scenariosToTry.flatMap((scenario) => chainShift(sealed, middleEar, scenario, frequencies) ?? [])
  const ofInnerEar = bone === undefined ? undefined : innerEarShift(sealed, bone, frequencies)
  const all = ofInnerEar === undefined ? ofChain : [...ofChain, ofInnerEar]
  return all.filter(({ shifts }) => shifts.some((shift) => Math.abs(shift) >= leastShiftDb))
}

function chainShift(
  { option, scenario: sealed }: SealedForecast,
  middleEar: MiddleEar,
  scenario: Scenario,
  frequencies: readonly FrequencyHz[],
): Shift | undefined {
  const actuator: Actuator = sealed?.actuator ?? 'floating-mass'
  const found = sealed?.found ?? []
  const lossesOf = (of: Scenario) =>
    new Map(
      lossByFrequency({ scenario: of, actuator, found, middleEar }, option.couplingSite).map(({ frequency, loss }) => [
        frequency,
        loss,
      ]),
    )
  if (contradictionIn(anyOssicles, found, earChangesOf(scenario)) !== undefined) return undefined
  const before = lossesOf(sealed?.scenario ?? {})
  const after = lossesOf({ ...sealed?.scenario, ...scenario })
  if ([...after.values()].some(({ route }) => route === 'none')) return undefined
  return {
    cause: { kind: 'scenario', scenario },
    shifts: frequencies.map((frequency) => (after.get(frequency)?.lossDb ?? 0) - (before.get(frequency)?.lossDb ?? 0)),
    // what was unsure of the ear as it was found is in the sealed spread already
    common: frequencies.map((frequency) =>
      Math.sqrt(Math.max(0, varianceOf(after.get(frequency)) - varianceOf(before.get(frequency)))),
    ),
    own: frequencies.map(() => 0),
  }
}

const varianceOf = (loss: DriveLoss | undefined): number =>
  loss === undefined ? 0 : loss.sdDb ** 2 + modelSdDb(loss) ** 2

/** What was sealed keeps the findings that it was computed with, not the plan's words for the ossicles. */
const anyOssicles = { malleus: 'not-known', incus: 'not-known', stapes: 'not-known' } as const

/** The bone conduction of the visit in the place of the one that was sealed, where both were heard. */
function innerEarShift(
  { inputs }: SealedForecast,
  bone: Audiogram,
  frequencies: readonly FrequencyHz[],
): Shift | undefined {
  const shifts = frequencies.map((frequency) => {
    const then = inputs.bone.find((at) => at.frequency === frequency)
    const now = bone.get(frequency)
    return then?.kind === 'heard' && now?.kind === 'heard' ? now.level - then.level : 0
  })
  return {
    cause: { kind: 'inner-ear' },
    shifts,
    common: frequencies.map(() => 0),
    own: frequencies.map((frequency, i) =>
      shifts[i] === 0 ? 0 : repeatability('bone', frequency).standardUncertainty,
    ),
  }
}

const places = ['malleus', 'incus', 'malleus-and-incus', 'stapes'] as const

/** Chosen by this board: fibrous tissue, a bony bar and extensive new bone; joints from slack to apart; contact in steps of 5 dB. */
const scenariosToTry: readonly Scenario[] = [
  ...places.flatMap((at) => [10, 100, 1000].map((times) => ({ fixation: { at, times } }))),
  ...[5, 10, 15, 20].map((lossDb) => ({ contact: { lossDb, sdDb: 2.5 } })),
  ...[0.3, 0.1, 0.03].map((malleusIncusSlack) => ({ malleusIncusSlack })),
  ...[0.3, 0.1, 0.03].map((factor) => ({ incusStapes: { kind: 'slack' as const, factor } })),
  { incusStapes: { kind: 'apart' } },
]
