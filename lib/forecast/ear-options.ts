import type { DeviceProfile } from '../devices/device-profile.ts'
import { compareOptions } from './comparison.ts'
import type { ForecastOutcome } from './forecast.ts'
import type { ForecastInputs, ForecastPlan, ForecastRefusal } from './inputs.ts'
import { type Option, optionsOf } from './profiles.ts'
import { type ScenarioContext, type ScenarioRefusal, scenarioInputs } from './scenario-inputs.ts'

/** A forecast, or why there is none: from plan and tests, or from what is found or assumed about the ear. */
export type EarOutcome = ForecastOutcome | { readonly ok: false; readonly refusal: EarRefusal }
export type EarRefusal = ForecastRefusal | ScenarioRefusal

/** A device class at a site by one profile: the board's own, or one that the team entered. */
export interface EarOption {
  readonly option: Option
  readonly profile: DeviceProfile
  readonly outcome: EarOutcome
}

export interface EarInputs extends Omit<ForecastInputs, 'plan'> {
  readonly plan: ForecastPlan
}

/**
 * The same ear with every option of every profile, as it was found and under a scenario, in the order of the profiles. One
 * loss is computed for all of them. What stands against the scenario stands against every option.
 * @throws RangeError when the scenario or a change is out of its domain
 * Checked by: tests/unit/forecast/ear-options.test.ts
 */
export function earOptions(inputs: EarInputs, context: ScenarioContext): readonly EarOption[] {
  const { plan, profiles } = inputs
  const changed = scenarioInputs(inputs, context)
  return profiles.flatMap((profile): readonly EarOption[] => {
    if (!changed.ok) return optionsOf([profile]).map((option) => ({ option, profile, outcome: changed }))
    const compared = compareOptions({ ...changed.inputs, plan, profiles: [profile] })
    return compared.map(({ option, outcome }) => ({ option, profile, outcome }))
  })
}

/** Own profiles by their highest version: what was entered again counts no more. */
export function latestProfiles(entered: readonly DeviceProfile[]): readonly DeviceProfile[] {
  const latest = new Map<string, DeviceProfile>()
  for (const profile of entered) {
    const known = latest.get(profile.id)
    if (known === undefined || known.version < profile.version) latest.set(profile.id, profile)
  }
  return [...latest.values()]
}
