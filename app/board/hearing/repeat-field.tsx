'use client'

import { useState } from 'react'
import { Field } from '@/app/components/field.tsx'
import { useMessages } from '@/app/messages/use-messages.ts'
import type { DbHl } from '@/lib/units/levels.ts'
import { repeatOf } from './cell-entry.ts'
import styles from './test-desk.module.css'

interface RepeatFieldProps {
  /** dB HL */
  readonly level: DbHl | undefined
  readonly onSet: (level: DbHl | undefined) => void
}

/** The threshold at 1 kHz sought a second time; Enter or leaving the field takes it, Escape brings back what stands. */
export function RepeatField({ level, onSet }: RepeatFieldProps) {
  const { hearing } = useMessages()
  const [draft, setDraft] = useState<string>()
  const reading = draft === undefined ? undefined : repeatOf(draft)
  const [tried, setTried] = useState(false)
  const take = () => {
    setTried(true)
    if (reading === undefined || reading.kind === 'fault') return
    if (reading.level !== level) onSet(reading.level)
    setDraft(undefined)
  }
  return (
    <div className={styles.repeat}>
      <Field
        label={hearing.repeat.label}
        hint={hearing.repeat.hint}
        error={tried && reading?.kind === 'fault' ? hearing.repeat.fault(reading.fault) : undefined}
      >
        {(control) => (
          <input
            {...control}
            inputMode="decimal"
            autoComplete="off"
            value={draft ?? (level === undefined ? '' : String(level))}
            onFocus={(event) => event.currentTarget.select()}
            onChange={(event) => {
              setTried(false)
              setDraft(event.currentTarget.value)
            }}
            onBlur={take}
            onKeyDown={(event) => {
              if (event.key === 'Enter') take()
              else if (event.key === 'Escape') setDraft(undefined)
              else return
              event.preventDefault()
            }}
          />
        )}
      </Field>
    </div>
  )
}
