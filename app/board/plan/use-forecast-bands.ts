'use client'

import { useMemo } from 'react'
import type { LevelBand } from '@/app/audiogram/chart-intervals.tsx'
import { useMessages } from '@/app/messages/use-messages.ts'
import { forecastLevelBand } from './level-band.ts'
import { useForecast } from './use-forecast.ts'

const none: readonly LevelBand[] = []

/** The forecast of the planned ear as a band for its audiogram; nothing without a forecast. */
export function useForecastBands(): readonly LevelBand[] {
  const { forecast: words } = useMessages()
  const { plan, outcome } = useForecast()
  return useMemo(
    () => (plan !== undefined && outcome.ok ? [forecastLevelBand(plan.ear, outcome.forecast, words.bandLabel)] : none),
    [plan, outcome, words],
  )
}
