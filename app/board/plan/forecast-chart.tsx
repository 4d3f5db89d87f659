'use client'

import { useMemo } from 'react'
import { AudiogramChart } from '@/app/audiogram/audiogram-chart.tsx'
import type { LevelBand } from '@/app/audiogram/chart-intervals.tsx'
import { layerOf } from '@/app/audiogram/layers.ts'
import { useMessages } from '@/app/messages/for-forecast.ts'
import type { HearingTest } from '@/lib/board/records/hearing-test.ts'
import type { Forecast } from '@/lib/forecast/forecast.ts'
import styles from './forecast-chart.module.css'
import { forecastLevelBand } from './level-band.ts'

interface ForecastChartProps {
  readonly test: HearingTest
  readonly forecast: Forecast
  /** without the scenario; absent while there is none */
  readonly before?: Forecast | undefined
}

/** The unaided test that the forecast stands on, with the expected aided thresholds as a band over it. */
export function ForecastChart({ test, forecast, before }: ForecastChartProps) {
  const { forecast: words, words: shared } = useMessages()
  const layers = useMemo(() => [layerOf(test)], [test])
  const bands = useMemo((): readonly LevelBand[] => {
    const band = forecastLevelBand(test.ear, forecast)
    if (before === undefined) return [{ ...band, label: words.bandLabel }]
    const earlier = forecastLevelBand(test.ear, before)
    return [
      { ...earlier, id: 'before', label: words.bandBefore, pattern: 3, labelAt: 1 },
      { ...band, label: words.bandAfter, pattern: 1, labelAt: band.limits.length - 2 },
    ]
  }, [test.ear, forecast, before, words])
  return (
    <div className={styles.chart}>
      <AudiogramChart label={words.chartLabel(shared.earShort[test.ear])} layers={layers} bands={bands} />
    </div>
  )
}
