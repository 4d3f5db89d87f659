'use client'

import { useMemo } from 'react'
import { useSingle, useTable } from '@/app/board/board-context.tsx'
import type { Experience } from '@/lib/forecast/experience.ts'
import { changesNothing } from '@/lib/forecast/loss-by-frequency.ts'
import { asFound, type CaseForecast, type CaseRecord, caseForecast, type WhatIf } from './case-forecast.ts'

/** The forecast of the open case, computed anew whenever the plan, a test or a profile changes. */
export function useForecast(): CaseForecast {
  const record = useCaseRecord()
  return useMemo(() => caseForecast(record, asFound), [record])
}

interface Both {
  readonly found: CaseForecast
  /** the same as `found` while the scenario changes nothing */
  readonly changed: CaseForecast
}

/** The forecast as found and under a scenario, both in the same draw, so that no number is ahead of another. */
export function useForecastUnder(whatIf: WhatIf, experience: Experience | undefined): Both {
  const plain = useCaseRecord()
  const record = useMemo(() => ({ ...plain, experience }), [plain, experience])
  const { scenario, actuator } = whatIf
  const found = useMemo(() => caseForecast(record, { scenario: {}, actuator }), [record, actuator])
  const changed = useMemo(
    () => (changesNothing(scenario) ? found : caseForecast(record, { scenario, actuator })),
    [record, scenario, actuator, found],
  )
  return { found, changed }
}

function useCaseRecord(): CaseRecord {
  const plan = useSingle('plan')
  const header = useSingle('header')
  const tests = useTable('tests')
  const speechTests = useTable('speechTests')
  const profiles = useTable('profiles')
  return useMemo(() => ({ plan, header, tests, speechTests, profiles }), [plan, header, tests, speechTests, profiles])
}
