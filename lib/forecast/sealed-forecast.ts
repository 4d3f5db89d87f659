import { SealedForecast } from '../devices/sealed-forecast.ts'
import { rounded } from '../devices/sealed-numbers.ts'
import { earsWith } from './experience.ts'
import { type Forecast, forecast } from './forecast.ts'
import type { ForecastInputs, ForecastRefusal } from './inputs.ts'
import { type ScenarioContext, type ScenarioRefusal, scenarioInputs } from './scenario-inputs.ts'
import type { ScorableForecast } from './scoring.ts'
import { scorableFrom, sealedAudiogram, sealedQuantity } from './sealed-numbers.ts'

/** Rises when the same inputs would give other numbers, so that a sealed forecast is never held against another model. */
export const forecastModelVersion = 2

export interface SealInputs {
  readonly inputs: ForecastInputs
  readonly context?: ScenarioContext | undefined
}

export type Sealable =
  | { readonly ok: true; readonly content: SealedForecast }
  | { readonly ok: false; readonly refusal: ForecastRefusal | ScenarioRefusal }

/**
 * The content to be sealed: computed from the inputs alone, so that who receives it can compute it again and compare.
 * @returns the refusal of the forecast or of the scenario where there is nothing to seal
 * @throws RangeError when the scenario or a test is out of its domain
 * Checked by: tests/unit/forecast/sealed-forecast.test.ts
 */
export function sealable({ inputs, context }: SealInputs): Sealable {
  const changed = context === undefined ? ({ ok: true, inputs } as const) : scenarioInputs(inputs, context)
  if (!changed.ok) return changed
  const outcome = forecast(changed.inputs)
  if (!outcome.ok) return outcome
  const { option } = outcome.forecast
  const profile = inputs.profiles.find(({ deviceClass }) => deviceClass === option.deviceClass)
  if (profile === undefined) return { ok: false, refusal: { code: 'no-profile', ...option } }
  const content = {
    modelVersion: forecastModelVersion,
    profile: { id: profile.id, version: profile.version },
    option,
    inputs: sealedInputs(inputs, outcome.forecast),
    ...(context === undefined ? {} : { scenario: sealedScenario(context) }),
    ...sealedNumbers(outcome.forecast),
  }
  return { ok: true, content: SealedForecast.parse(content) }
}

function sealedInputs({ plan, tests, loss, experience }: ForecastInputs, { option }: Forecast) {
  const { otherEar } = experience ?? {}
  const gains = [...(otherEar?.gainDb ?? [])].toSorted(([a], [b]) => a - b)
  return {
    ear: plan?.ear,
    air: sealedAudiogram(tests?.air ?? new Map()),
    bone: sealedAudiogram(tests?.bone ?? new Map()),
    ...(tests?.soundField === undefined ? {} : { soundField: sealedAudiogram(tests.soundField) }),
    unaidedWords: (tests?.unaidedWords ?? []).map(({ right, items, levelDbSpl }) => ({ right, items, levelDbSpl })),
    lossModel: loss.id,
    ...(otherEar === undefined
      ? {}
      : {
          otherEar: {
            deviceClass: otherEar.deviceClass,
            couplingSite: otherEar.couplingSite,
            gains: gains.map(([frequency, gainDb]) => ({ frequency, gainDb: rounded(gainDb) })),
          },
        }),
    ownEars: experience === undefined ? 0 : earsWith(option, experience).length,
  }
}

const sealedScenario = ({ scenario, actuator, found = [], patient }: ScenarioContext) => ({
  scenario,
  actuator,
  ...(found.length === 0 ? {} : { found }),
  ...(patient === undefined ? {} : { patient }),
})

const sealedNumbers = ({ byFrequency, fourTone, wordScores }: Forecast) => ({
  byFrequency: byFrequency.map(({ frequency, aidedThreshold, effectiveGain }) => ({
    frequency,
    aidedThreshold: sealedQuantity(aidedThreshold),
    effectiveGain: sealedQuantity(effectiveGain),
  })),
  fourTone: {
    aidedThreshold: sealedQuantity(fourTone.aidedThreshold),
    effectiveGain: sealedQuantity(fourTone.effectiveGain),
  },
  wordScores: wordScores.map(({ variant, score }) => ({ variant, score: sealedQuantity(score) })),
})

/**
 * Whether two contents are the same, byte for byte in the order of the schema, whatever order their fields came in.
 * @throws ZodError when one is no sealed forecast
 */
export const sameForecast = (a: SealedForecast, b: SealedForecast): boolean => sealedText(a) === sealedText(b)

/** The one spelling of a content: fields in the order of the schema, no white space. */
export const sealedText = (content: SealedForecast): string => JSON.stringify(SealedForecast.parse(content))

/** A sealed forecast as the follow-up scores it. */
export const scorableForecast = ({ byFrequency, fourTone }: SealedForecast): ScorableForecast => ({
  byFrequency: byFrequency.map(({ frequency, aidedThreshold }) => ({
    frequency,
    aidedThreshold: scorableFrom(aidedThreshold),
  })),
  fourTone: { aidedThreshold: scorableFrom(fourTone.aidedThreshold) },
})
