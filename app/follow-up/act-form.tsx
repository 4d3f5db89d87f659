'use client'

import { type FormEvent, useState } from 'react'
import { useBoard, useSingle, useTable } from '@/app/board/board-context.tsx'
import { usePostGuard } from '@/app/board/post-guard.tsx'
import { Button } from '@/app/components/button.tsx'
import { Field } from '@/app/components/field.tsx'
import { useKeptText } from '@/app/components/kept-text.ts'
import { LeavableForm } from '@/app/components/leavable-form.tsx'
import { LimitedText } from '@/app/components/limited-text.tsx'
import { useSay } from '@/app/components/toast.tsx'
import { useMessages } from '@/app/messages/for-follow-up.ts'
import { actOnContingency } from '@/lib/board/edits/decisions.ts'
import { onlyId, textLimits } from '@/lib/board/identity.ts'
import type { Contingency, NextStep } from '@/lib/board/records/contingency.ts'
import { useNextNames } from './use-next-names.ts'
import styles from './watched-contingencies.module.css'

interface ActFormProps {
  readonly contingency: Contingency
  readonly onDone: () => void
}

/** What was done about a contingency that is met, and what it led to. */
export function ActForm({ contingency, onDone }: ActFormProps) {
  const { followUp, shell } = useMessages()
  const { record, pen } = useBoard()
  const beforePosting = usePostGuard()
  const say = useSay()
  const what = useKeptText(`acted:${contingency.id}`)
  const nameOf = useNextNames()
  const choices = useNextSteps(contingency)
  const [next, setNext] = useState<NextStep>()
  const [tried, setTried] = useState(false)
  const words = followUp.watch
  const text = what.text.trim()
  const save = (event: FormEvent) => {
    event.preventDefault()
    setTried(true)
    if (text === '' || text.length > textLimits.long) return
    beforePosting(text, () => {
      actOnContingency(record, pen, contingency.id, text, next)
      what.clear()
      say(words.done)
      onDone()
    })
  }
  return (
    <LeavableForm className={styles.form} onSubmit={save} onLeave={onDone}>
      <LimitedText
        label={words.what}
        hint={words.whatHint}
        limit={textLimits.long}
        lines={2}
        value={what.text}
        onChange={what.write}
        error={tried && text === '' ? words.missingText : undefined}
      />
      <Field label={words.next}>
        {(control) => (
          <select
            {...control}
            value={next === undefined ? '' : keyOf(next)}
            onChange={({ target }) => setNext(choices.find((one) => keyOf(one) === target.value))}
          >
            <option value="">{words.nextNone}</option>
            {choices.map((one) => (
              <option key={keyOf(one)} value={keyOf(one)}>
                {nameOf(one)}
              </option>
            ))}
          </select>
        )}
      </Field>
      <div className={styles.acts}>
        <Button type="submit" tone="accent">
          {followUp.save}
        </Button>
        <Button tone="quiet" onClick={onDone}>
          {shell.cancel}
        </Button>
      </div>
    </LeavableForm>
  )
}

const keyOf = ({ kind, id }: NextStep): string => `${kind}/${id}`

function useNextSteps(contingency: Contingency): readonly NextStep[] {
  const plan = useSingle('plan')
  const notes = useTable('notes')
  const contingencies = useTable('contingencies')
  const visits = useTable('visits')
  return [
    ...(plan === undefined ? [] : [{ kind: 'plan' as const, id: onlyId }]),
    ...notes
      .filter(({ kind, struck }) => kind === 'decision' && struck === undefined)
      .map(({ id }) => ({ kind: 'notes' as const, id })),
    ...contingencies
      .filter(({ id }) => id !== contingency.id)
      .map(({ id }) => ({ kind: 'contingencies' as const, id })),
    ...visits.filter(({ state }) => state === 'planned').map(({ id }) => ({ kind: 'visits' as const, id })),
  ]
}
