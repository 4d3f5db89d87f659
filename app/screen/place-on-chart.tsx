'use client'

import { useMemo } from 'react'
import { AudiogramChart } from '@/app/audiogram/audiogram-chart.tsx'
import { layerOf } from '@/app/audiogram/layers.ts'
import { useMessages } from '@/app/messages/for-screens.ts'
import type { ChartPlace } from '@/lib/board/records/annotation.ts'
import type { HearingTest } from '@/lib/board/records/hearing-test.ts'
import styles from './place-on-chart.module.css'
import { stageChartText } from './stage-chart.ts'
import { useWords } from './use-words.ts'

interface PlaceOnChartProps {
  readonly place: ChartPlace
  readonly tests: readonly HearingTest[]
}

/** A small audiogram of the ear with the place that a question points at, and the place in words above it. */
export function PlaceOnChart({ place, tests }: PlaceOnChartProps) {
  const { screens, words } = useMessages()
  const { frequency } = useWords()
  const layers = useMemo(() => tests.map((test) => layerOf(test)), [tests])
  const anchors = useMemo(() => [{ id: 'asked', number: 1, place }], [place])
  const where =
    place.kind === 'pin'
      ? screens.screen.atPoint(words.ear[place.ear], frequency(place.frequency), place.level)
      : screens.screen.atBand(words.ear[place.ear], frequency(place.from), frequency(place.to))
  return (
    <>
      <h2 className={styles.where} data-ear={place.ear}>
        {where}
      </h2>
      <div className={styles.chart}>
        <AudiogramChart label={where} layers={layers} anchors={anchors} fit="box" textSize={stageChartText} />
      </div>
    </>
  )
}
