'use client'

import { type FormEvent, useState } from 'react'
import { Button, type ButtonProps } from '@/app/components/button.tsx'
import { useKeptText } from '@/app/components/kept-text.ts'
import { LeavableForm } from '@/app/components/leavable-form.tsx'
import { LimitedText } from '@/app/components/limited-text.tsx'
import { useMessages } from '@/app/messages/for-decisions.ts'
import { textLimits } from '@/lib/board/identity.ts'
import styles from './forms.module.css'

interface ReasonFormProps {
  /** under what name an unfinished reason is kept */
  readonly name: string
  readonly label: string
  readonly hint: string
  readonly submit: string
  readonly tone: NonNullable<ButtonProps['tone']>
  readonly onReason: (reason: string, sent: () => void) => void
  readonly onDone: () => void
}

/** One line that says why. Nothing is struck or moved without it. */
export function ReasonForm({ name, label, hint, submit, tone, onReason, onDone }: ReasonFormProps) {
  const { decisions, shell } = useMessages()
  const words = useKeptText(name)
  const [missing, setMissing] = useState(false)
  const send = (event: FormEvent) => {
    event.preventDefault()
    const reason = words.text.trim()
    setMissing(reason === '')
    if (reason === '' || reason.length > textLimits.short) return
    onReason(reason, () => {
      words.clear()
      onDone()
    })
  }
  return (
    <LeavableForm className={styles.form} onSubmit={send} onLeave={onDone}>
      <LimitedText
        ref={focusIt}
        label={label}
        hint={hint}
        limit={textLimits.short}
        sendKey="Enter"
        value={words.text}
        onChange={words.write}
        error={missing && words.text.trim() === '' ? decisions.contingency.missing : undefined}
      />
      <div className={styles.buttons}>
        <Button type="submit" tone={tone}>
          {submit}
        </Button>
        <Button tone="quiet" onClick={onDone}>
          {shell.cancel}
        </Button>
      </div>
    </LeavableForm>
  )
}

const focusIt = (field: HTMLTextAreaElement | null) => field?.focus()
