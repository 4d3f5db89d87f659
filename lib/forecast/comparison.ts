import { type ForecastOutcome, forecast } from './forecast.ts'
import type { ForecastInputs, ForecastPlan } from './inputs.ts'
import { type Option, optionsOf } from './profiles.ts'

export interface ComparedOption {
  readonly option: Option
  readonly outcome: ForecastOutcome
}

/**
 * The same ear with each option in turn, in the order of the profiles; an option that cannot be forecast keeps its
 * place with the reason.
 * @param options every class at every site of the profiles unless given
 */
export function compareOptions(
  inputs: ForecastInputs & { readonly plan: ForecastPlan },
  options: readonly Option[] = optionsOf(inputs.profiles),
): readonly ComparedOption[] {
  return options.map((option) => ({
    option,
    outcome: forecast({ ...inputs, plan: { ...inputs.plan, ...option } }),
  }))
}

export const isSameOption = (a: Option, b: Option): boolean =>
  a.deviceClass === b.deviceClass && a.couplingSite === b.couplingSite
