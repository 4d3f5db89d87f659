'use client'

import { type FormEvent, useState } from 'react'
import { Button } from '@/app/components/button.tsx'
import { Field } from '@/app/components/field.tsx'
import { useMessages } from '@/app/messages/use-messages.ts'
import { textLimits } from '@/lib/board/identity.ts'
import type { OperativeStep } from '@/lib/board/records/operative-step.ts'
import styles from './step-words.module.css'

export type StepWords = Pick<OperativeStep, 'title' | 'check' | 'hazard'>

interface StepWordsFormProps {
  readonly words: StepWords
  readonly submit: string
  readonly onSubmit: (words: StepWords) => void
}

/** Title, check and hazard of a step; sent whole, so that nobody reads half a step in theatre. */
export function StepWordsForm({ words, submit, onSubmit }: StepWordsFormProps) {
  const { steps } = useMessages()
  const [draft, setDraft] = useState(words)
  const send = (event: FormEvent) => {
    event.preventDefault()
    onSubmit({ title: draft.title.trim(), check: draft.check.trim(), hazard: draft.hazard.trim() })
  }
  return (
    <form className={styles.form} onSubmit={send}>
      <Field label={steps.title}>
        {(control) => (
          <input
            {...control}
            required
            pattern=".*\S.*"
            maxLength={textLimits.short}
            value={draft.title}
            onChange={(event) => setDraft({ ...draft, title: event.target.value })}
          />
        )}
      </Field>
      <Field label={steps.check}>
        {(control) => (
          <textarea
            {...control}
            rows={2}
            maxLength={textLimits.long}
            value={draft.check}
            onChange={(event) => setDraft({ ...draft, check: event.target.value })}
          />
        )}
      </Field>
      <Field label={steps.hazard}>
        {(control) => (
          <textarea
            {...control}
            rows={2}
            maxLength={textLimits.long}
            value={draft.hazard}
            onChange={(event) => setDraft({ ...draft, hazard: event.target.value })}
          />
        )}
      </Field>
      <Button type="submit" tone="accent">
        {submit}
      </Button>
    </form>
  )
}
