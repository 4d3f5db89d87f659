'use client'

import { type FormEvent, useState } from 'react'
import { usePostGuard } from '@/app/board/post-guard.tsx'
import { Button } from '@/app/components/button.tsx'
import { LimitedText } from '@/app/components/limited-text.tsx'
import { StateSign } from '@/app/components/state-sign.tsx'
import { useMessages } from '@/app/messages/for-steps.ts'
import type { OperativeStep } from '@/lib/board/records/operative-step.ts'
import { reasonLength } from '@/lib/board/records/step-exception.ts'
import styles from './jump-question.module.css'

interface JumpQuestionProps {
  readonly step: OperativeStep
  /** its prerequisites that are open */
  readonly open: readonly OperativeStep[]
  readonly onReason: (reason: string) => void
  readonly onBack: () => void
}

/** Names what is open before a step, with the hazard of each, and asks why to go on without. Escape goes back. */
export function JumpQuestion({ step, open, onReason, onBack }: JumpQuestionProps) {
  const { steps, words } = useMessages()
  const [reason, setReason] = useState('')
  const [missing, setMissing] = useState(false)
  const beforePosting = usePostGuard()
  const send = (event: FormEvent) => {
    event.preventDefault()
    const said = reason.trim()
    setMissing(said === '')
    if (said === '' || said.length > reasonLength) return
    beforePosting(said, () => onReason(said))
  }
  return (
    <form className={styles.question} onSubmit={send} noValidate>
      <p dir="auto">{steps.jumpAsk(step.title)}</p>
      <ul className={styles.open}>
        {open.map(({ id, title, hazard, state }) => (
          <li key={id}>
            <span className={styles.title} dir="auto">
              {title}
            </span>{' '}
            <StateSign tone={state === 'under-way' ? 'accent' : 'caution'}>{words.stepState[state]}</StateSign>
            {hazard !== '' && (
              <p className={styles.hazard} dir="auto">
                <span aria-hidden="true">▲ </span>
                {steps.hazardOf(hazard)}
              </p>
            )}
          </li>
        ))}
      </ul>
      <LimitedText
        isFirst
        label={steps.jumpReason}
        hint={steps.jumpHint}
        limit={reasonLength}
        sendKey="Enter"
        value={reason}
        onChange={setReason}
        error={missing && reason.trim() === '' ? steps.jumpMissing : undefined}
      />
      <div className={styles.bar}>
        <Button type="submit" tone="accent">
          {steps.jumpGoOn}
        </Button>
        <Button onClick={onBack} aria-keyshortcuts="Escape">
          {steps.jumpBack}
        </Button>
      </div>
    </form>
  )
}
