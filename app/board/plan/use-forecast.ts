'use client'

import { useMemo } from 'react'
import { useSingle, useTable } from '@/app/board/board-context.tsx'
import { currentTest, earTestsOf, forecastPlanOf } from '@/lib/board/forecast-inputs.ts'
import type { HearingTest } from '@/lib/board/records/hearing-test.ts'
import type { Plan } from '@/lib/board/records/plan.ts'
import type { SpeechTest } from '@/lib/board/records/speech-test.ts'
import { type ComparedOption, compareOptions } from '@/lib/forecast/comparison.ts'
import { type ForecastOutcome, forecast } from '@/lib/forecast/forecast.ts'
import { asInEvidence } from '@/lib/forecast/loss-model.ts'
import { deviceProfiles } from '@/lib/forecast/profiles.ts'

export interface CaseForecast {
  readonly plan: Plan | undefined
  /** the current unaided test of the planned ear */
  readonly unaided: HearingTest | undefined
  /** of the option in the plan */
  readonly outcome: ForecastOutcome
  /** the same ear with every option; nothing without a plan */
  readonly compared: readonly ComparedOption[]
}

/** The forecast of the open case, computed anew whenever the plan or a test changes. */
export function useForecast(): CaseForecast {
  const plan = useSingle('plan')
  const tests = useTable('tests')
  const speechTests = useTable('speechTests')
  return useMemo(() => caseForecast(plan, tests, speechTests), [plan, tests, speechTests])
}

export function caseForecast(
  plan: Plan | undefined,
  tests: readonly HearingTest[],
  speechTests: readonly SpeechTest[],
): CaseForecast {
  const known = { profiles: deviceProfiles, loss: asInEvidence }
  if (plan === undefined)
    return { plan, unaided: undefined, outcome: forecast({ plan, tests: undefined, ...known }), compared: [] }
  const inputs = { plan: forecastPlanOf(plan), tests: earTestsOf(plan.ear, tests, speechTests), ...known }
  const unaided = currentTest(tests, plan.ear, 'unaided')
  return { plan, unaided, outcome: forecast(inputs), compared: compareOptions(inputs) }
}
