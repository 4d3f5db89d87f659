'use client'

import { useState } from 'react'
import { Button } from '@/app/components/button.tsx'
import { Dialog } from '@/app/components/dialog.tsx'
import { Field } from '@/app/components/field.tsx'
import { useMessages } from '@/app/messages/for-forecast-records.ts'
import type { RecordId } from '@/lib/board/identity.ts'
import type { ScenarioRecord } from '@/lib/board/records/sealed-record.ts'
import type { EarOption } from '@/lib/forecast/ear-options.ts'
import { optionText } from '../option-text.ts'
import styles from './sealed-list.module.css'

interface SealDialogProps {
  readonly open: boolean
  readonly option: EarOption
  /** frozen ones of the same option */
  readonly scenarios: readonly ScenarioRecord[]
  readonly onSeal: (scenario: RecordId | undefined) => void
  readonly onClose: () => void
}

/** Sealing is for good, so it is asked for twice. */
export function SealDialog({ open, option, scenarios, onSeal, onClose }: SealDialogProps) {
  const { forecastRecords, shell, words } = useMessages()
  const { sealed: labels } = forecastRecords
  const [scenario, setScenario] = useState('')
  return (
    <Dialog open={open} onClose={onClose} title={labels.confirmTitle}>
      <div className={styles.form}>
        <p className={styles.name}>{optionText(option.option, undefined, words)}</p>
        <p>{labels.confirm}</p>
        {scenarios.length > 0 && (
          <Field label={labels.under}>
            {(control) => (
              <select {...control} value={scenario} onChange={(event) => setScenario(event.target.value)}>
                <option value="">{labels.asFound}</option>
                {scenarios.map(({ id, title }) => (
                  <option key={id} value={id}>
                    {title}
                  </option>
                ))}
              </select>
            )}
          </Field>
        )}
        <div className={styles.buttons}>
          <Button tone="accent" onClick={() => onSeal(scenario === '' ? undefined : scenario)}>
            {labels.submit}
          </Button>
          <Button onClick={onClose}>{shell.cancel}</Button>
        </div>
      </div>
    </Dialog>
  )
}
