'use client'

import { useMemo } from 'react'
import { useSingle, useTable, useThreads } from '@/app/board/board-context.tsx'
import { ForecastOnScreen } from '@/app/board/plan/forecast-on-screen.tsx'
import { OptionsOnScreen } from '@/app/board/plan/options-on-screen.tsx'
import type { Showing } from '@/lib/board/records/main-screen.ts'
import { useLinkLoss } from './link-loss.ts'
import { MainScreen, type ScreenGround } from './main-screen.tsx'
import { screenContent } from './screen-content.ts'

const nothing: Showing = { kind: 'nothing' }

/** The main screen over the case's documents. */
export function ScreenPane({ ground }: { ground: ScreenGround }) {
  const header = useSingle('header')
  const showing = useSingle('mainScreen')?.showing ?? nothing
  const tests = useTable('tests')
  const notes = useTable('notes')
  const contingencies = useTable('contingencies')
  const steps = useTable('steps')
  const threads = useThreads()
  const votes = useTable('votes')
  const pictures = useTable('pictures')
  const scenarios = useTable('scenarios')
  const forecasts = useTable('forecasts')
  const content = useMemo(
    () =>
      screenContent({ showing, tests, notes, contingencies, steps, threads, votes, pictures, scenarios, forecasts }),
    [showing, tests, notes, contingencies, steps, threads, votes, pictures, scenarios, forecasts],
  )
  return (
    <MainScreen
      header={header}
      showing={showing}
      content={content}
      loss={useLinkLoss()}
      ground={ground}
      forecast={<ForecastOnScreen />}
      options={<OptionsOnScreen />}
    />
  )
}
