'use client'

import { lazy, type ReactNode, Suspense, useCallback, useState } from 'react'
import { type JumpTarget, useJumps } from '@/app/board/jump.ts'
import { useMessages } from '@/app/messages/for-forecast-records.ts'
import type { KindName } from '@/lib/board/records.ts'
import type { EarOption } from '@/lib/forecast/ear-options.ts'
import type { WhatIf } from './case-forecast.ts'
import styles from './records-section.module.css'

const Sealed = lazy(() => import('./sealed/sealed-list.tsx'))
const Fit = lazy(() => import('./fit/fit-list.tsx'))
const Profiles = lazy(() => import('./profiles/profile-list.tsx'))

const kinds = ['forecasts', 'fitMeasurements', 'profiles'] as const satisfies readonly KindName[]
type Kind = (typeof kinds)[number]

interface RecordsSectionProps {
  /** the option that is shown, as the ear was found */
  readonly option: EarOption | undefined
  readonly whatIf: WhatIf
}

/** What is written beside the forecast, folded away: each part is loaded when it is first opened. */
export default function RecordsSection({ option, whatIf }: RecordsSectionProps) {
  const { forecastRecords: words } = useMessages()
  const [open, setOpen] = useState<ReadonlySet<Kind>>(new Set())
  const goTo = useCallback(({ kind }: JumpTarget) => {
    const wanted = kinds.find((each) => each === kind)
    if (wanted !== undefined) setOpen((before) => new Set([...before, wanted]))
  }, [])
  useJumps(kinds, goTo)
  const fold = (kind: Kind, title: string, content: ReactNode) => (
    <details
      className={styles.part}
      open={open.has(kind)}
      onToggle={({ currentTarget }) => {
        const isOpen = currentTarget.open
        setOpen((before) => {
          if (before.has(kind) === isOpen) return before
          return isOpen ? new Set([...before, kind]) : new Set([...before].filter((other) => other !== kind))
        })
      }}
    >
      <summary className={styles.title}>{title}</summary>
      {open.has(kind) && (
        <Suspense>
          <div className={styles.content}>{content}</div>
        </Suspense>
      )}
    </details>
  )
  return (
    <div className={styles.parts}>
      {fold('forecasts', words.sealed.title, <Sealed option={option} whatIf={whatIf} />)}
      {fold('fitMeasurements', words.fit.title, <Fit profile={option?.profile} />)}
      {fold('profiles', words.profiles.title, <Profiles />)}
    </div>
  )
}
