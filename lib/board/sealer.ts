import type { DeviceOption } from '../devices/classes.ts'
import type { DeviceProfile } from '../devices/device-profile.ts'
import type { Actuator } from '../devices/drives.ts'
import type { Scenario } from '../devices/scenario.ts'
import type { SealedForecast, SealedScenario } from '../devices/sealed-forecast.ts'
import type { FrozenAnswer, SealRequest } from '../forecast/seal-anew.ts'
import type { Sealable } from '../forecast/sealed-forecast.ts'
import { earTestsOf, forecastPlanOf } from './forecast-inputs.ts'
import type { CaseHeader } from './records/case-header.ts'
import type { HearingTest } from './records/hearing-test.ts'
import type { Plan } from './records/plan.ts'
import type { ProfileRecord } from './records/sealed-record.ts'
import type { SpeechTest } from './records/speech-test.ts'

/** What computes: the case document describes numbers and gives none itself, so page and server hand this in. */
export interface Sealer {
  /** the profiles that come with the board */
  readonly profiles: readonly DeviceProfile[]
  forecast(request: SealRequest): Sealable
  scenario(request: SealRequest & { readonly assumed: SealedScenario }): FrozenAnswer
}

/** The record as it stands, as far as a forecast depends on it. */
export interface RecordNow {
  readonly plan: Plan
  readonly header: CaseHeader | undefined
  readonly tests: readonly HearingTest[]
  readonly speechTests: readonly SpeechTest[]
}

/** A forecast of the planned ear with this option. */
export const requestOf = (
  { plan, tests, speechTests }: RecordNow,
  option: DeviceOption,
  profile: DeviceProfile,
  assumed: SealedScenario | undefined,
): SealRequest => ({
  plan: { ...forecastPlanOf(plan), ...option },
  tests: earTestsOf(plan.ear, tests, speechTests),
  profile,
  assumed,
})

export interface Assumption {
  readonly scenario?: Scenario | undefined
  readonly actuator: Actuator
}

/**
 * Under what a forecast of the planned ear holds: what the plan found in it, and what a scenario adds.
 * @returns undefined when nothing is found or assumed
 */
export function assumedOf({ plan, header }: RecordNow, { scenario, actuator }: Assumption): SealedScenario | undefined {
  const found = plan.earChanges ?? []
  if (scenario === undefined && found.length === 0) return undefined
  return {
    scenario: scenario ?? {},
    actuator,
    ...(found.length === 0 ? {} : { found }),
    ...(scenario?.innerEarYears ? patientOf(header) : {}),
  }
}

function patientOf(header: CaseHeader | undefined): Pick<SealedScenario, 'patient'> {
  if (header?.ageYears === undefined || header.sex === 'not-stated') return {}
  return { patient: { ageYears: header.ageYears, sex: header.sex } }
}

/** One of the board's own, or one that the team entered. */
export function profileOf(
  { id, version }: SealedForecast['profile'],
  own: readonly DeviceProfile[],
  entered: Iterable<ProfileRecord>,
): DeviceProfile | undefined {
  const isWanted = (profile: DeviceProfile) => profile.id === id && profile.version === version
  return own.find(isWanted) ?? [...entered].map(({ profile }) => profile).find(isWanted)
}
