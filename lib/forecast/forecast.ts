import type { FrequencyHz } from '../units/frequencies.ts'
import { type FrequencyForecast, forecastAt } from './at-frequency.ts'
import { type Candidacy, candidacyOf } from './candidacy.ts'
import { type Concern, concernsOf } from './concerns.ts'
import { couplingAt, sourceOf } from './device-profile.ts'
import { isWeak } from './evidence.ts'
import { type FourToneForecast, fourToneOf, meanLossOf, spreadOfMean } from './four-tone.ts'
import { meanGainBelief } from './gain-belief.ts'
import type { FittingVerdict } from './headroom.ts'
import type { ExpectedEar } from './index-forecast.ts'
import type { EarTests, ForecastInputs, ForecastPlan, ForecastRefusal } from './inputs.ts'
import { fourFrequenciesHz, isBeyondOutput } from './mean-of-four.ts'
import { absent, levelOf, type Prediction, testedAt } from './prediction.ts'
import type { Option } from './profiles.ts'
import { rememberedLoss } from './remembered-loss.ts'
import { type Fitting, optionOf } from './situation.ts'
import { aidedEar, type SpeechForecast, speechForecast } from './speech-outlook.ts'
import { beyondGroup } from './without-gap.ts'
import { listLengthOf, type WordScoreForecast, wordScore } from './word-score.ts'
import { type WordScoreByIndex, wordScoreByIndex } from './word-score-by-index.ts'
import { workingValues } from './working-values.ts'

/** Frequencies that a forecast speaks of; those without evidence in the profile are absent with that reason. */
export const forecastFrequenciesHz = [
  250, 500, 1000, 2000, 3000, 4000, 6000, 8000,
] as const satisfies readonly FrequencyHz[]

export interface Forecast {
  readonly option: Option
  readonly byFrequency: readonly FrequencyForecast[]
  readonly fourTone: FourToneForecast
  /** one for each published way of coupling at the site; none where nothing is published */
  readonly wordScores: readonly WordScoreForecast[]
  /** index of speech without and with the device */
  readonly speech: readonly SpeechForecast[]
  /** word score by way of the index, beside and apart from `wordScores` */
  readonly wordScoreByIndex: WordScoreByIndex
  /** over 0.5 to 4 kHz, the least favourable frequency of the most favourable output of the class */
  readonly fitting: FittingVerdict | undefined
  readonly concerns: readonly Concern[]
  readonly candidacy: Candidacy
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
export function forecast({ plan, tests, profiles, loss, experience }: ForecastInputs): ForecastOutcome {
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
  const model = rememberedLoss(loss)
  if (model.lossAt(couplingSite, 1000).route === 'none') return refuse({ code: 'drive-interrupted', couplingSite })
  if (tests === undefined) return refuse({ code: 'no-current-test', ear })
  const beyond = beyondGroup(profile, coupling, tests)
  const fitting = { profile, coupling, site: couplingSite, model, experience, beyondGroup: beyond }
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
  const byFrequency = forecastFrequenciesHz.map((frequency) => forecastAt(fitting, tests, frequency))
  const fourTone = fourToneOf(fitting, byFrequency)
  const wordScores = wordScoresOf(fitting, tests, isOutOfReach(byFrequency))
  const aided = expectedEar(fitting, tests, byFrequency)
  const predictions = [
    ...byFrequency.flatMap(quantitiesOf),
    ...quantitiesOf(fourTone),
    ...wordScores.map((w) => w.score),
  ]
  return {
    option: optionOf(fitting),
    byFrequency,
    fourTone,
    wordScores,
    speech: speechForecast(tests, aided),
    wordScoreByIndex: wordScoreByIndex(aided, listLengthOf(tests).items),
    fitting: fittingOver(
      byFrequency,
      coupling.outputs.map((output) => output.id),
    ),
    concerns: concernsOf(plan, site),
    candidacy: candidacyOf(profile, tests),
    weak: predictions.some((p) => p.kind !== 'absent' && p.basis.sources.some(isWeak)),
  }
}

const quantitiesOf = (of: FourToneForecast): readonly Prediction[] => [
  of.aidedThreshold,
  of.effectiveGain,
  of.residualGap,
  of.functionalGain,
]

function expectedEar(fitting: Fitting, { bone }: EarTests, byFrequency: readonly FrequencyForecast[]): ExpectedEar {
  const { profile, coupling, model } = fitting
  const sources = [sourceOf(profile, coupling.gain.source), model.source, workingValues]
  return aidedEar({ byFrequency, bone, ...spreadOfMean(fitting), sources })
}

/** Nothing is reached at any of the four frequencies. */
const isOutOfReach = (byFrequency: readonly FrequencyForecast[]): boolean =>
  fourFrequenciesHz.every((wanted) =>
    byFrequency.some(({ frequency, aidedThreshold }) => frequency === wanted && isBeyondOutput(aidedThreshold)),
  )

/** What is out of reach has no score either: the far end of a curve is no expectation. */
function wordScoresOf(fitting: Fitting, tests: EarTests, outOfReach: boolean): readonly WordScoreForecast[] {
  const { profile, coupling, model } = fitting
  const boneMean = meanLevel(tests.bone)
  const airMean = meanLevel(tests.air)
  const belief = meanGainBelief({ ...fitting, option: optionOf(fitting) })
  return coupling.wordAnchors.map((anchor) => ({
    variant: anchor.variant,
    score: outOfReach
      ? absent('beyond-maximum-output')
      : wordScore({
          profile,
          anchor,
          model,
          boneMean,
          meanLoss: meanLossOf(fitting),
          ear: spreadOfMean(fitting),
          belief,
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
