import { currentTest, earTestsOf, forecastPlanOf } from '@/lib/board/forecast-inputs.ts'
import type { CaseHeader } from '@/lib/board/records/case-header.ts'
import type { HearingTest } from '@/lib/board/records/hearing-test.ts'
import type { Plan } from '@/lib/board/records/plan.ts'
import type { ProfileRecord } from '@/lib/board/records/sealed-record.ts'
import type { SpeechTest } from '@/lib/board/records/speech-test.ts'
import { assumedOf } from '@/lib/board/sealer.ts'
import type { Actuator } from '@/lib/devices/drives.ts'
import type { Scenario } from '@/lib/devices/scenario.ts'
import { airConductionAid, type Comparator, untreatedEar } from '@/lib/forecast/comparators.ts'
import { isSameOption } from '@/lib/forecast/comparison.ts'
import {
  type EarInputs,
  type EarOption,
  type EarOutcome,
  earOptions,
  latestProfiles,
} from '@/lib/forecast/ear-options.ts'
import type { Experience } from '@/lib/forecast/experience.ts'
import { forecast } from '@/lib/forecast/forecast.ts'
import type { EarTests } from '@/lib/forecast/inputs.ts'
import { type LossAt, lossByFrequency } from '@/lib/forecast/loss-by-frequency.ts'
import { asInEvidence } from '@/lib/forecast/loss-model.ts'
import { deviceProfiles, type Option } from '@/lib/forecast/profiles.ts'
import { type ScenarioContext, scenarioInputs } from '@/lib/forecast/scenario-inputs.ts'
import { createMiddleEar } from '@/lib/middle-ear/drive-change.ts'

/** As much of the record as a forecast depends on. */
export interface CaseRecord {
  readonly plan: Plan | undefined
  readonly header: CaseHeader | undefined
  readonly tests: readonly HearingTest[]
  readonly speechTests: readonly SpeechTest[]
  readonly profiles: readonly ProfileRecord[]
  /** results of the team's own series, where somebody asked for them; what is sealed or frozen leaves them out */
  readonly experience?: Experience | undefined
}

/** What is assumed beyond the record, on this page alone until it is frozen. */
export interface WhatIf {
  readonly scenario: Scenario
  readonly actuator: Actuator
}

/** Nothing assumed. The generic profile knows a floating mass alone. */
export const asFound: WhatIf = { scenario: {}, actuator: 'floating-mass' }

export interface CaseForecast {
  readonly plan: Plan | undefined
  /** the current unaided test of the planned ear */
  readonly unaided: HearingTest | undefined
  /** of the option in the plan, by the board's own profile */
  readonly outcome: EarOutcome
  /** the same ear with every option of every profile; nothing without a plan */
  readonly options: readonly EarOption[]
  /** the ear untreated, and with a conventional aid; nothing without a current test */
  readonly comparators: readonly Comparator[]
  lossAt(site: Option['couplingSite']): readonly LossAt[]
}

/** One network for the page: it remembers what options and scenarios share. */
const middleEar = createMiddleEar()

interface EarQuestion {
  readonly inputs: EarInputs
  readonly context: ScenarioContext
}

function questionOf(plan: Plan, record: CaseRecord, whatIf: WhatIf): EarQuestion {
  const { tests, speechTests, profiles, experience } = record
  const assumed = assumedOf({ ...record, plan }, whatIf) ?? whatIf
  return {
    inputs: {
      plan: forecastPlanOf(plan),
      tests: earTestsOf(plan.ear, tests, speechTests),
      profiles: [...deviceProfiles, ...latestProfiles(profiles.map(({ profile }) => profile))],
      loss: asInEvidence,
      experience,
    },
    context: { ...assumed, middleEar },
  }
}

/** Of the option in the plan alone, as the ear was found, by the board's own profile. */
export function plannedForecast(record: CaseRecord): EarOutcome {
  const { plan } = record
  if (plan === undefined) return forecast({ plan, tests: undefined, profiles: deviceProfiles, loss: asInEvidence })
  const { inputs, context } = questionOf(plan, record, asFound)
  const found = scenarioInputs(inputs, context)
  return found.ok ? forecast(found.inputs) : found
}

export function caseForecast(record: CaseRecord, whatIf: WhatIf): CaseForecast {
  const { plan, tests } = record
  if (plan === undefined) return { ...nothing, outcome: plannedForecast(record) }
  const { inputs, context } = questionOf(plan, record, whatIf)
  const options = earOptions(inputs, context)
  return {
    plan,
    unaided: currentTest(tests, plan.ear, 'unaided'),
    outcome: plannedOption(plan, options)?.outcome ?? forecast(inputs),
    options,
    comparators: inputs.tests === undefined ? [] : comparatorsOf(inputs.tests, plan),
    lossAt: (site) => lossByFrequency(context, site),
  }
}

function comparatorsOf(tests: EarTests, { earCanal }: Plan): readonly Comparator[] {
  const obstacle = earCanal === 'open' ? undefined : earCanal
  return [untreatedEar(tests), airConductionAid(tests, obstacle)]
}

const nothing: Omit<CaseForecast, 'outcome'> = {
  plan: undefined,
  unaided: undefined,
  options: [],
  comparators: [],
  lossAt: () => [],
}

/** The planned option by the board's own profile, which comes first. */
export function plannedOption(
  { deviceClass, couplingSite }: Pick<Plan, 'deviceClass' | 'couplingSite'>,
  options: readonly EarOption[],
): EarOption | undefined {
  if (deviceClass === undefined || couplingSite === undefined) return undefined
  return options.find(({ option }) => isSameOption(option, { deviceClass, couplingSite }))
}

/** Names one option by one profile. */
export const optionKey = ({ option, profile }: Pick<EarOption, 'option' | 'profile'>): string =>
  `${profile.id} ${profile.version} ${option.couplingSite}`

export const isOwnProfile = ({ profile }: Pick<EarOption, 'profile'>): boolean => !deviceProfiles.includes(profile)
