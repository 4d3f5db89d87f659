'use client'

import { useState } from 'react'
import { useBoard, useMay, usePerson, useTable } from '@/app/board/board-context.tsx'
import { Byline } from '@/app/board/byline.tsx'
import { usePutOnScreen, usePutOnScreenKey } from '@/app/board/put-on-screen.ts'
import { Button } from '@/app/components/button.tsx'
import { ScreenIcon } from '@/app/components/icons.tsx'
import { StateSign } from '@/app/components/state-sign.tsx'
import { useSay } from '@/app/components/toast.tsx'
import { useMessages } from '@/app/messages/for-forecast-records.ts'
import { sealForecast } from '@/lib/board/edits/forecast.ts'
import type { RecordId } from '@/lib/board/identity.ts'
import type { Showing } from '@/lib/board/records/main-screen.ts'
import type { ForecastRecord } from '@/lib/board/records/sealed-record.ts'
import { isSameOption } from '@/lib/forecast/comparison.ts'
import type { EarOption } from '@/lib/forecast/ear-options.ts'
import { changesNothing } from '@/lib/forecast/loss-by-frequency.ts'
import type { WhatIf } from '../case-forecast.ts'
import { newestFirst, standingScenarios } from '../frozen/standing-scenarios.ts'
import { optionText } from '../option-text.ts'
import { sealer } from '../page-sealer.ts'
import { sealingText } from '../sealing-text.ts'
import { SealDialog } from './seal-dialog.tsx'
import styles from './sealed-list.module.css'

interface SealedListProps {
  readonly option: EarOption | undefined
  readonly whatIf: WhatIf
}

/** The sealed forecasts with who and when, and for the team the button that seals another. */
export default function SealedList({ option, whatIf }: SealedListProps) {
  const { forecastRecords } = useMessages()
  const { sealed: words } = forecastRecords
  const forecasts = useTable('forecasts')
  const may = useMay()
  return (
    <>
      {forecasts.length === 0 && <p className={styles.note}>{words.none}</p>}
      {forecasts.length > 0 && (
        <ul className={styles.list} aria-label={words.title}>
          {newestFirst(forecasts).map((sealed) => (
            <SealedRow
              key={sealed.id}
              sealed={sealed}
              isFollowed={forecasts.some(({ follows }) => follows === sealed.id)}
            />
          ))}
        </ul>
      )}
      {!may.mayCreate('forecasts') && <p className={styles.note}>{words.teamOnly}</p>}
      {may.mayCreate('forecasts') && option?.outcome.ok && <Seal option={option} whatIf={whatIf} />}
    </>
  )
}

function SealedRow({ sealed, isFollowed }: { readonly sealed: ForecastRecord; readonly isFollowed: boolean }) {
  const { forecastRecords, words } = useMessages()
  const { sealed: labels } = forecastRecords
  const { id, content, author, at } = sealed
  const put = usePutOnScreen()
  const person = usePerson(author)
  const scenarios = useTable('scenarios')
  const under = scenarios.find((scenario) => scenario.id === sealed.scenario)
  const showing: Showing = { kind: 'sealed-forecast', id }
  return (
    <li className={styles.row} tabIndex={-1} {...usePutOnScreenKey(showing)}>
      <p className={styles.name}>
        {optionText(content.option, content.inputs.ear, words)}{' '}
        <StateSign tone={isFollowed ? 'superseded' : 'current'}>
          {isFollowed ? labels.followed : labels.stands}
        </StateSign>
      </p>
      <p className={styles.facts}>
        <SealedMean sealed={sealed} />
        {under !== undefined && `. ${labels.underScenario(under.title)}`}
      </p>
      <Byline person={person} at={at} />
      {put !== undefined && (
        <Button tone="quiet" aria-keyshortcuts="s" onClick={() => put(showing)}>
          <ScreenIcon /> {labels.show}
        </Button>
      )}
    </li>
  )
}

function SealedMean({ sealed }: { readonly sealed: ForecastRecord }) {
  const { forecast, forecastRecords } = useMessages()
  const { sealed: words } = forecastRecords
  const { aidedThreshold: mean } = sealed.content.fourTone
  switch (mean.kind) {
    case 'estimate':
      return words.mean(
        forecast.number(mean.value),
        forecast.number(mean.interval.low),
        forecast.number(mean.interval.high),
      )
    case 'at-least':
      return words.bound(forecast.atLeast(mean.value))
    case 'at-most':
      return words.bound(forecast.atMost(mean.value))
    case 'absent':
      return words.noMean
    default:
      return mean satisfies never
  }
}

function Seal({ option, whatIf }: { readonly option: EarOption; readonly whatIf: WhatIf }) {
  const { forecast, forecastRecords } = useMessages()
  const { sealed: words } = forecastRecords
  const { record, pen } = useBoard()
  const say = useSay()
  const [asking, setAsking] = useState(false)
  const [problem, setProblem] = useState<string>()
  const scenarios = standingScenarios(useTable('scenarios')).filter(({ content }) =>
    isSameOption(content.option, option.option),
  )
  const seal = (scenario: RecordId | undefined) => {
    const wanted = { option: option.option, profile: option.profile, actuator: whatIf.actuator }
    const made = sealForecast(record, pen, sealer, scenario === undefined ? wanted : { ...wanted, scenario })
    setAsking(false)
    setProblem(made.ok ? undefined : words.cannot(sealingText(made.reason, forecast)))
    if (made.ok) say(words.done)
  }
  return (
    <>
      {!changesNothing(whatIf.scenario) && <p className={styles.note}>{words.liveScenario}</p>}
      {problem !== undefined && (
        <p className={styles.problem} role="alert">
          {problem}
        </p>
      )}
      <div>
        <Button onClick={() => setAsking(true)}>{words.seal}</Button>
      </div>
      <SealDialog open={asking} option={option} scenarios={scenarios} onSeal={seal} onClose={() => setAsking(false)} />
    </>
  )
}
