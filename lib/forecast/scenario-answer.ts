import type { FrequencyHz } from '../units/frequencies.ts'
import { type Intervals, type Range, z50, z80 } from './distribution.ts'
import type { Forecast } from './forecast.ts'
import type { Cause, EstimatePrediction, Prediction } from './prediction.ts'
import type { Option } from './profiles.ts'
import type { SpeechConditionId } from './speech-conditions.ts'
import type { WordScoreForecast } from './word-score.ts'

/**
 * A change of one number, changed minus before, with what is unsure of the change: model and scenario. What one ear has in
 * common in both forecasts, such as how well it couples, cancels.
 */
export type Change =
  | (Intervals & { readonly kind: 'change'; readonly value: number; readonly sd: number })
  /** a bound or no number stands on one side */
  | { readonly kind: 'absent'; readonly reason: 'no-number-on-one-side' }

export interface ScenarioAnswer {
  readonly option: Option
  /** of the aided threshold, dB; positive is worse */
  readonly byFrequency: readonly { readonly frequency: FrequencyHz; readonly aidedThreshold: Change }[]
  readonly meanAidedThreshold: Change
  /** percentage points; negative is worse */
  readonly wordScores: readonly { readonly variant: WordScoreForecast['variant']; readonly score: Change }[]
  /** of the index with the device, 0 to 1; negative is worse */
  readonly speech: readonly { readonly condition: SpeechConditionId; readonly index: Change }[]
}

/**
 * What a scenario does to a forecast, as numbers.
 * @param base the ear as it is; @param changed the same option and tests under a scenario
 * @throws RangeError when the two are not of the same option
 * Checked by: tests/unit/forecast/scenario.test.ts
 */
export function scenarioAnswer(base: Forecast, changed: Forecast): ScenarioAnswer {
  const { option } = base
  if (option.deviceClass !== changed.option.deviceClass || option.couplingSite !== changed.option.couplingSite)
    throw new RangeError(`changed is of ${nameOf(changed.option)}, but must be of ${nameOf(option)}`)
  return {
    option,
    byFrequency: base.byFrequency.map(({ frequency, aidedThreshold }) => ({
      frequency,
      aidedThreshold: changeOf(
        aidedThreshold,
        changed.byFrequency.find((at) => at.frequency === frequency)?.aidedThreshold,
      ),
    })),
    meanAidedThreshold: changeOf(base.fourTone.aidedThreshold, changed.fourTone.aidedThreshold),
    wordScores: base.wordScores.map(({ variant, score }) => ({
      variant,
      score: changeOf(score, changed.wordScores.find((other) => other.variant === variant)?.score),
    })),
    speech: base.speech.map(({ condition, aided }) => ({
      condition,
      index: changeOf(aided, changed.speech.find((other) => other.condition === condition)?.aided),
    })),
  }
}

const nameOf = ({ deviceClass, couplingSite }: Option): string => `${deviceClass} at ${couplingSite}`

function changeOf(before: Prediction, after: Prediction | undefined): Change {
  if (before.kind !== 'estimate' || after?.kind !== 'estimate')
    return { kind: 'absent', reason: 'no-number-on-one-side' }
  const value = after.value - before.value
  const sd = Math.hypot(sdOfChange(before), sdOfChange(after))
  const around = (z: number): Range => ({ low: value - z * sd, high: value + z * sd })
  return { kind: 'change', value, sd, interval50: around(z50), interval: around(z80) }
}

const causesOfChange: readonly Cause[] = ['model', 'scenario']

const sdOfChange = ({ basis }: EstimatePrediction): number =>
  Math.hypot(...basis.shares.filter(({ cause }) => causesOfChange.includes(cause)).map(({ sd }) => sd))
