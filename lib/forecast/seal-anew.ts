import type { DeviceProfile } from '../devices/device-profile.ts'
import type { SealedAnswer, SealedChange } from '../devices/sealed-answer.ts'
import type { SealedForecast, SealedScenario } from '../devices/sealed-forecast.ts'
import { rounded } from '../devices/sealed-numbers.ts'
import { createMiddleEar } from '../middle-ear/drive-change.ts'
import type { Range } from './distribution.ts'
import { forecast } from './forecast.ts'
import type { EarTests, ForecastInputs, ForecastPlan } from './inputs.ts'
import { asInEvidence } from './loss-model.ts'
import { type Change, type ScenarioAnswer, scenarioAnswer } from './scenario-answer.ts'
import { type ScenarioContext, scenarioInputs } from './scenario-inputs.ts'
import { type Sealable, sealable } from './sealed-forecast.ts'

/** All that a forecast is sealed from, read from the record: published evidence alone, without the team's series. */
export interface SealRequest {
  /** with the option that is forecast */
  readonly plan: ForecastPlan
  readonly tests: EarTests | undefined
  readonly profile: DeviceProfile
  /** absent: the ear as it was tested, coupling as in the evidence */
  readonly assumed?: SealedScenario | undefined
}

export type FrozenAnswer =
  | { readonly ok: true; readonly content: SealedForecast; readonly answer: SealedAnswer }
  | Extract<Sealable, { ok: false }>

/**
 * The content of a forecast to be sealed, and what a receiver computes again to check it.
 * @throws RangeError when something assumed is out of its domain
 */
export const sealAnew = (request: SealRequest): Sealable =>
  sealable({ inputs: inputsOf(request), context: contextOf(request) })

/**
 * The same for a scenario, with what it does to the forecast of the ear as it was found.
 * @returns the refusal where either forecast cannot be made
 * @throws RangeError when something assumed is out of its domain
 */
export function answerAnew(request: SealRequest & { readonly assumed: SealedScenario }): FrozenAnswer {
  const context = contextOf(request)
  const inputs = inputsOf(request)
  const sealed = sealable({ inputs, context })
  if (!sealed.ok) return sealed
  const before = forecastIn(inputs, context && { ...context, scenario: {} })
  if (!before.ok) return before
  const changed = forecastIn(inputs, context)
  if (!changed.ok) return changed
  const answer = sealedAnswer(scenarioAnswer(before.forecast, changed.forecast))
  return { ok: true, content: sealed.content, answer }
}

const inputsOf = ({ plan, tests, profile }: SealRequest): ForecastInputs => ({
  plan,
  tests,
  profiles: [profile],
  loss: asInEvidence,
})

const contextOf = ({ assumed }: SealRequest): ScenarioContext | undefined =>
  assumed && { ...assumed, middleEar: createMiddleEar() }

function forecastIn(inputs: ForecastInputs, context: ScenarioContext | undefined) {
  const changed = context === undefined ? ({ ok: true, inputs } as const) : scenarioInputs(inputs, context)
  return changed.ok ? forecast(changed.inputs) : changed
}

const sealedAnswer = ({ byFrequency, meanAidedThreshold, wordScores }: ScenarioAnswer): SealedAnswer => ({
  byFrequency: byFrequency.map(({ frequency, aidedThreshold }) => ({
    frequency,
    aidedThreshold: sealedChange(aidedThreshold),
  })),
  meanAidedThreshold: sealedChange(meanAidedThreshold),
  wordScores: wordScores.map(({ variant, score }) => ({ variant, score: sealedChange(score) })),
})

function sealedChange(change: Change): SealedChange {
  if (change.kind === 'absent') return change
  const { value, sd, interval50, interval } = change
  const of = ({ low, high }: Range) => ({ low: rounded(low), high: rounded(high) })
  return { kind: 'change', value: rounded(value), sd: rounded(sd), interval50: of(interval50), interval: of(interval) }
}
