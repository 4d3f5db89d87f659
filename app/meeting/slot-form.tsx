'use client'

import { type FormEvent, useState } from 'react'
import { sentenceOfFault } from '@/app/api-client.ts'
import { Button } from '@/app/components/button.tsx'
import { Dialog } from '@/app/components/dialog.tsx'
import { Field } from '@/app/components/field.tsx'
import { useMessages } from '@/app/messages/for-meeting.ts'
import { type CaseSummary, labelLength } from '@/lib/interchange/api.ts'
import { fromLocalEntry, toLocalEntry } from './planned-time.ts'
import styles from './slot-form.module.css'
import type { Leading } from './use-leading.ts'

interface SlotFormProps {
  readonly open: boolean
  readonly onClose: () => void
  readonly summary: CaseSummary
  readonly leading: Leading
}

/** Asks when a case is planned, and what the break before it is called. */
export function SlotForm({ open, onClose, summary, leading }: SlotFormProps) {
  const { meeting } = useMessages()
  return (
    <Dialog open={open} onClose={onClose} title={meeting.setTimeOf(summary.label)}>
      <OpenSlotForm onClose={onClose} summary={summary} leading={leading} />
    </Dialog>
  )
}

function OpenSlotForm({ onClose, summary, leading }: Omit<SlotFormProps, 'open'>) {
  const { meeting, shell } = useMessages()
  const [time, setTime] = useState(toLocalEntry(summary.plannedAt))
  const [breakBefore, setBreakBefore] = useState(summary.breakBefore)
  const [fault, setFault] = useState<string>()
  const submit = async (event: FormEvent<HTMLFormElement>) => {
    event.preventDefault()
    const plannedAt = fromLocalEntry(time)
    // Half a date is an empty value to the page; the control itself knows better.
    if (plannedAt === undefined || !event.currentTarget.checkValidity()) return setFault(meeting.plannedAtWrong)
    try {
      await leading.saveSlot(summary.id, { plannedAt, breakBefore })
      onClose()
    } catch (error) {
      setFault(sentenceOfFault(error))
    }
  }
  return (
    <form className={styles.form} onSubmit={submit} noValidate>
      <Field label={meeting.plannedAt} hint={meeting.plannedAtHint} error={fault}>
        {(control) => (
          <input {...control} type="datetime-local" value={time} onChange={({ target }) => setTime(target.value)} />
        )}
      </Field>
      <Field label={meeting.breakBefore} hint={meeting.breakBeforeHint}>
        {(control) => (
          <input
            {...control}
            value={breakBefore}
            maxLength={labelLength}
            onChange={({ target }) => setBreakBefore(target.value)}
          />
        )}
      </Field>
      <div className={styles.acts}>
        <Button type="submit" tone="accent">
          {meeting.save}
        </Button>
        <Button onClick={onClose}>{shell.cancel}</Button>
      </div>
    </form>
  )
}
