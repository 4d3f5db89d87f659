'use client'

import { useState } from 'react'
import { usePostGuard } from '@/app/board/post-guard.tsx'
import { Button } from '@/app/components/button.tsx'
import { Dialog } from '@/app/components/dialog.tsx'
import { Field } from '@/app/components/field.tsx'
import { useMessages } from '@/app/messages/use-messages.ts'
import { textLimits } from '@/lib/board/identity.ts'
import styles from './dialogs.module.css'

interface ReasonDialogProps {
  readonly act: 'supersede' | 'error' | 'reinstate'
  /** which test, in words */
  readonly sentence: string
  readonly onClose: () => void
  readonly onReason: (reason: string) => void
}

/** Asks for the reason without which no test changes its state. */
export function ReasonDialog({ act, sentence, onClose, onReason }: ReasonDialogProps) {
  const { hearing, shell } = useMessages()
  const beforePosting = usePostGuard()
  const [reason, setReason] = useState('')
  const [tried, setTried] = useState(false)
  const problem = reasonProblem(reason, hearing)
  const submit = () => {
    setTried(true)
    if (problem === undefined) beforePosting(reason, () => onReason(reason.trim()))
  }
  return (
    <Dialog open onClose={onClose} title={hearing.reason[act]}>
      <p className={styles.subject}>{sentence}</p>
      {act === 'error' && <p>{hearing.reason.errorText}</p>}
      {act === 'reinstate' && <p>{hearing.reason.reinstateText}</p>}
      <form
        className={styles.form}
        onSubmit={(event) => {
          event.preventDefault()
          submit()
        }}
      >
        <Field label={hearing.reason.label} hint={hearing.reason.hint} error={tried ? problem : undefined}>
          {(control) => (
            <textarea {...control} rows={2} value={reason} onChange={(event) => setReason(event.currentTarget.value)} />
          )}
        </Field>
        <div className={styles.buttons}>
          <Button type="submit" tone={act === 'error' ? 'stop' : 'accent'}>
            {hearing.reason.submit}
          </Button>
          <Button onClick={onClose}>{shell.cancel}</Button>
        </div>
      </form>
    </Dialog>
  )
}

type HearingWords = ReturnType<typeof useMessages>['hearing']

/** What is wrong with a short text that has to be there; undefined when it can be stored. */
export function reasonProblem(text: string, { reason, notes }: HearingWords): string | undefined {
  if (text.trim() === '') return reason.missing
  const { length } = text.trim()
  return length > textLimits.short ? notes.textTooLong(length, textLimits.short) : undefined
}
