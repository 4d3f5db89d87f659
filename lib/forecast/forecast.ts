import type { FrequencyHz } from '../units/frequencies.ts'
import { type Fitting, type FrequencyForecast, forecastAt } from './at-frequency.ts'
import { type Concern, concernsOf } from './concerns.ts'
import { couplingAt, sourceOf } from './device-profile.ts'
import { type EvidenceSource, isWeak } from './evidence.ts'
import type { FittingVerdict } from './headroom.ts'
import type { EarTests, ForecastInputs, ForecastPlan, ForecastRefusal } from './inputs.ts'
import { fourFrequenciesHz, meanOfFour } from './mean-of-four.ts'
import { type Basis, type FormulaId, levelOf, type Prediction, type Spread, sharesOf, testedAt } from './prediction.ts'
import type { Option } from './profiles.ts'
import { type WordScoreForecast, wordScore } from './word-score.ts'
import { aidedFloorDbHl, meanSpreadDb, workingValues } from './working-values.ts'

/** Frequencies that a forecast speaks of; those without evidence in the profile are absent with that reason. */
export const forecastFrequenciesHz = [
  250, 500, 1000, 2000, 3000, 4000, 6000, 8000,
] as const satisfies readonly FrequencyHz[]

/** Means over 0.5, 1, 2 and 4 kHz. */
export interface FourToneForecast {
  readonly aidedThreshold: Prediction
  readonly effectiveGain: Prediction
  readonly residualGap: Prediction
  readonly functionalGain: Prediction
}

export interface Forecast {
  readonly option: Option
  readonly byFrequency: readonly FrequencyForecast[]
  readonly fourTone: FourToneForecast
  /** one for each published way of coupling at the site; none where nothing is published */
  readonly wordScores: readonly WordScoreForecast[]
  /** over 0.5 to 4 kHz, the least favourable frequency of the most favourable output of the class */
  readonly fitting: FittingVerdict | undefined
  readonly concerns: readonly Concern[]
  readonly candidacy: { readonly remark: string; readonly source: EvidenceSource }
  /** at least one number stands on evidence that nobody has held against a publication */
  readonly weak: boolean
}

export type ForecastOutcome =
  | { readonly ok: true; readonly forecast: Forecast }
  | { readonly ok: false; readonly refusal: ForecastRefusal }

const refuse = (refusal: ForecastRefusal): ForecastOutcome => ({ ok: false, refusal })

/**
 * What is to be expected of a device class at a coupling site in this ear, from group evidence and the ear's own bone
 * conduction. Every number carries its interval (80 %) and its basis; where the evidence or a measurement is missing
 * there is a reason instead of a number.
 *
 * What it cannot know: how well this ear will couple, the fitting of the device, training, and anything at 250 Hz or
 * above 4 kHz, for which the evidence has no values.
 * @returns a refusal, not an exception, when the plan or the tests do not allow a forecast
 * Checked by: tests/published/forecast-recipe.test.ts, busch-2016.test.ts, effective-gain-table.test.ts
 */
export function forecast({ plan, tests, profiles, loss }: ForecastInputs): ForecastOutcome {
  if (plan === undefined) return refuse({ code: 'no-plan' })
  const { ear, deviceClass, couplingSite } = plan
  if (deviceClass === undefined) return refuse({ code: 'no-device-class' })
  if (couplingSite === undefined) return refuse({ code: 'no-coupling-site', deviceClass })
  const option = { deviceClass, couplingSite }
  const profile = profiles.find((candidate) => candidate.deviceClass === deviceClass)
  const coupling = profile && couplingAt(profile, couplingSite)
  if (profile === undefined || coupling === undefined) return refuse({ code: 'no-profile', ...option })
  const missing = missingOssicle(plan, option)
  if (missing !== undefined) return refuse(missing)
  if (tests === undefined) return refuse({ code: 'no-current-test', ear })
  const fitting = { profile, coupling, site: couplingSite, model: loss }
  const untestable = unfitTests(fitting, tests, plan)
  return untestable === undefined ? { ok: true, forecast: forecastOf(fitting, plan, tests) } : refuse(untestable)
}

function missingOssicle({ incus, stapes }: ForecastPlan, { couplingSite }: Option): ForecastRefusal | undefined {
  const onIncus = couplingSite === 'incus-body' || couplingSite === 'incus-long-process'
  if (onIncus && incus === 'missing') return { code: 'ossicle-missing', couplingSite, ossicle: 'incus' }
  if (couplingSite === 'stapes-head' && stapes === 'missing')
    return { code: 'ossicle-missing', couplingSite, ossicle: 'stapes' }
  return undefined
}

function unfitTests(fitting: Fitting, tests: EarTests, { ear }: ForecastPlan): ForecastRefusal | undefined {
  const frequencies = fitting.coupling.gain.entries.map((entry) => entry.frequency)
  if (!frequencies.some((frequency) => testedAt(tests.bone, frequency)))
    return { code: 'no-bone-thresholds', ear, frequencies }
  const needed = fourFrequenciesHz.flatMap((frequency) => {
    const bone = testedAt(tests.bone, frequency)
    return bone === undefined ? [] : [levelOf(bone) + fitting.model.lossAt(fitting.site, frequency).lossDb]
  })
  const boneMeanDbHl = needed.reduce((sum, level) => sum + level, 0) / needed.length
  const maximumOutputDbHl = Math.max(...fitting.coupling.outputs.map((output) => output.highDbHl))
  if (needed.length > 0 && boneMeanDbHl >= maximumOutputDbHl)
    return { code: 'beyond-working-range', boneMeanDbHl, maximumOutputDbHl }
  return undefined
}

function forecastOf(fitting: Fitting, plan: ForecastPlan, tests: EarTests): Forecast {
  const { profile, coupling, site } = fitting
  const option = { deviceClass: profile.deviceClass, couplingSite: site }
  const byFrequency = forecastFrequenciesHz.map((frequency) => forecastAt(fitting, tests, frequency))
  const fourTone = fourToneOf(fitting, byFrequency)
  const wordScores = wordScoresOf(fitting, tests)
  const predictions = [
    ...byFrequency.flatMap(quantitiesOf),
    ...quantitiesOf(fourTone),
    ...wordScores.map((w) => w.score),
  ]
  return {
    option,
    byFrequency,
    fourTone,
    wordScores,
    fitting: fittingOver(
      byFrequency,
      coupling.outputs.map((output) => output.id),
    ),
    concerns: concernsOf(plan, site),
    candidacy: { remark: profile.candidacy.remark, source: sourceOf(profile, profile.candidacy.source) },
    weak: predictions.some((p) => p.kind !== 'absent' && p.basis.sources.some(isWeak)),
  }
}

const quantitiesOf = (of: FourToneForecast): readonly Prediction[] => [
  of.aidedThreshold,
  of.effectiveGain,
  of.residualGap,
  of.functionalGain,
]

const limitsOfMean = {
  aidedThreshold: { low: aidedFloorDbHl, high: Number.POSITIVE_INFINITY },
  difference: { low: Number.NEGATIVE_INFINITY, high: Number.POSITIVE_INFINITY },
} as const

/** Means over four frequencies with the working spread of such a mean, which already holds its measurement errors. */
function fourToneOf(fitting: Fitting, byFrequency: readonly FrequencyForecast[]): FourToneForecast {
  const four = byFrequency.filter(({ frequency }) => fourFrequenciesHz.some((wanted) => wanted === frequency))
  const { sdDb } = meanLossOf(fitting)
  const spread: Spread = { 'between-patients': meanSpreadDb.used, scenario: sdDb }
  const sd = Math.hypot(meanSpreadDb.used, sdDb)
  const mean = (name: keyof FourToneForecast, limits: (typeof limitsOfMean)[keyof typeof limitsOfMean]) => {
    const parts = four.map((at) => at[name])
    return meanOfFour(parts, sd, limits, basisOfMean(four, parts, spread, name))
  }
  return {
    aidedThreshold: mean('aidedThreshold', limitsOfMean.aidedThreshold),
    effectiveGain: mean('effectiveGain', limitsOfMean.difference),
    residualGap: mean('residualGap', limitsOfMean.difference),
    functionalGain: mean('functionalGain', limitsOfMean.difference),
  }
}

function basisOfMean(
  four: readonly FrequencyForecast[],
  parts: readonly Prediction[],
  spread: Spread,
  name: keyof FourToneForecast,
): Basis {
  const known = parts.flatMap((part) => (part.kind === 'absent' ? [] : [part]))
  const unit = name === 'aidedThreshold' ? 'dB HL' : 'dB'
  const inputs = four.flatMap(({ frequency }, index) => {
    const part = parts[index]
    return part === undefined || part.kind === 'absent'
      ? []
      : [{ name: inputNameOf[name], unit, value: part.value, frequency } as const]
  })
  const { low, high } = meanSpreadDb
  return {
    formula: 'mean-of-four' satisfies FormulaId,
    inputs: [...inputs, { name: 'spread-of-mean', unit: 'dB', value: { low, high } }],
    sources: distinct([...known.flatMap((part) => part.basis.sources), workingValues]),
    shares: sharesOf(spread),
    remarks: [...new Set(known.flatMap((part) => part.basis.remarks))],
  }
}

const inputNameOf = {
  aidedThreshold: 'aided-thresholds',
  effectiveGain: 'effective-gains',
  residualGap: 'residual-gaps',
  functionalGain: 'functional-gains',
} as const

const distinct = (sources: readonly EvidenceSource[]): readonly EvidenceSource[] => [
  ...new Map(sources.map((source) => [source.id, source])).values(),
]

function meanLossOf({ model, site }: Fitting): { readonly lossDb: number; readonly sdDb: number } {
  const losses = fourFrequenciesHz.map((frequency) => model.lossAt(site, frequency))
  const mean = (pick: (loss: (typeof losses)[number]) => number) =>
    losses.reduce((sum, loss) => sum + pick(loss), 0) / losses.length
  return { lossDb: mean((loss) => loss.lossDb), sdDb: mean((loss) => loss.sdDb) }
}

function wordScoresOf(fitting: Fitting, tests: EarTests): readonly WordScoreForecast[] {
  const { profile, coupling, model } = fitting
  const boneMean = meanLevel(tests.bone)
  const airMean = meanLevel(tests.air)
  return coupling.wordAnchors.map((anchor) => ({
    variant: anchor.variant,
    score: wordScore({
      profile,
      anchor,
      model,
      boneMean,
      meanLoss: meanLossOf(fitting),
      airMeanDbHl: airMean?.valueDbHl,
      unaidedWords: tests.unaidedWords,
    }),
  }))
}

/** Mean of the four frequencies; a lower bound when one gave no response; undefined when one is missing. */
function meanLevel(audiogram: EarTests['bone']): { valueDbHl: number; censored: boolean } | undefined {
  const four = fourFrequenciesHz.map((frequency) => testedAt(audiogram, frequency))
  const tested = four.filter((threshold) => threshold !== undefined)
  if (tested.length < four.length) return undefined
  return {
    valueDbHl: tested.reduce((sum, threshold) => sum + levelOf(threshold), 0) / tested.length,
    censored: tested.some((threshold) => threshold.kind === 'no-response'),
  }
}

const worstFirst: readonly FittingVerdict[] = ['outside', 'depends', 'inside']

function fittingOver(
  byFrequency: readonly FrequencyForecast[],
  outputs: readonly string[],
): FittingVerdict | undefined {
  const verdicts = outputs.flatMap((output) => {
    const ofOutput = byFrequency.flatMap(({ headroom }) => headroom.filter((room) => room.output === output))
    const worst = worstFirst.find((verdict) => ofOutput.some((room) => room.verdict === verdict))
    return worst === undefined ? [] : [worst]
  })
  return worstFirst.findLast((verdict) => verdicts.includes(verdict))
}
