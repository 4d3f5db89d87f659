'use client'

import { useMemo } from 'react'
import { AudiogramChart } from '@/app/audiogram/audiogram-chart.tsx'
import { layerOf } from '@/app/audiogram/layers.ts'
import { useMessages } from '@/app/messages/use-messages.ts'
import type { HearingTest } from '@/lib/board/records/hearing-test.ts'
import type { Forecast } from '@/lib/forecast/forecast.ts'
import styles from './forecast-chart.module.css'
import { forecastLevelBand } from './level-band.ts'

interface ForecastChartProps {
  readonly test: HearingTest
  readonly forecast: Forecast
}

/** The unaided test that the forecast stands on, with the expected aided thresholds as a band over it. */
export function ForecastChart({ test, forecast }: ForecastChartProps) {
  const { forecast: words, words: shared } = useMessages()
  const layers = useMemo(() => [layerOf(test)], [test])
  const bands = useMemo(() => [forecastLevelBand(test.ear, forecast, words.bandLabel)], [test.ear, forecast, words])
  return (
    <div className={styles.chart}>
      <AudiogramChart label={words.chartLabel(shared.earShort[test.ear])} layers={layers} bands={bands} />
    </div>
  )
}
