'use client'

import { useMemo } from 'react'
import { AudiogramChart } from '@/app/audiogram/audiogram-chart.tsx'
import type { LevelBand } from '@/app/audiogram/chart-intervals.tsx'
import { layerOf } from '@/app/audiogram/layers.ts'
import { useMessages } from '@/app/messages/for-forecast.ts'
import type { HearingTest } from '@/lib/board/records/hearing-test.ts'
import type { EarOption } from '@/lib/forecast/ear-options.ts'
import type { Ear } from '@/lib/units/frequencies.ts'
import { isOwnProfile, optionKey } from './case-forecast.ts'
import { forecastLevelBand } from './level-band.ts'
import { optionText } from './option-text.ts'
import styles from './options-chart.module.css'
import { letters } from './options-laid.ts'

interface OptionsChartProps {
  readonly test: HearingTest
  readonly options: readonly EarOption[]
  /** keys of the chosen ones, in the order of their letters */
  readonly laid: readonly string[]
}

/** The chosen options over the unaided audiogram, each with a letter and a line of its own. */
export function OptionsChart({ test, options, laid }: OptionsChartProps) {
  const { forecast: words, words: shared } = useMessages()
  const chosen = useMemo(
    () => laid.flatMap((key) => options.find((option) => optionKey(option) === key) ?? []),
    [laid, options],
  )
  const layers = useMemo(() => [layerOf(test)], [test])
  const bands = useMemo(() => chosen.flatMap((option, place) => bandOf(test.ear, option, place)), [chosen, test.ear])
  if (chosen.length === 0) return <p className={styles.hint}>{words.optionsChartHint}</p>
  return (
    <figure className={styles.figure}>
      <figcaption className={styles.legend}>
        <span className={styles.title}>{words.optionsChart}</span>
        <ul className={styles.items}>
          {chosen.map((option, place) => (
            <li key={optionKey(option)} className={styles.item}>
              <svg className={styles.sample} data-pattern={place + 1} viewBox="0 0 48 12" aria-hidden="true">
                <line x1="2" y1="6" x2="46" y2="6" />
              </svg>
              <b>{letters[place]}</b> {optionText(option.option, undefined, shared)}
              {isOwnProfile(option) && `, ${words.ownProfile(option.profile.id, option.profile.version)}`}
            </li>
          ))}
        </ul>
      </figcaption>
      <div className={styles.chart}>
        <AudiogramChart label={words.optionsChart} layers={layers} bands={bands} />
      </div>
    </figure>
  )
}

function bandOf(ear: Ear, { outcome }: EarOption, place: number): readonly LevelBand[] {
  if (!outcome.ok) return []
  const band = forecastLevelBand(ear, outcome.forecast)
  const last = band.limits.length - 1
  const label = letters[place] ?? ''
  const pattern = place === 0 ? 1 : place === 1 ? 2 : 3
  return [
    { ...band, id: `option.${label}`, label, pattern, labelAt: Math.round((last * place) / (letters.length - 1)) },
  ]
}
