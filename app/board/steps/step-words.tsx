'use client'

import { type FormEvent, useState } from 'react'
import { Button } from '@/app/components/button.tsx'
import { Field } from '@/app/components/field.tsx'
import { useMessages } from '@/app/messages/for-steps.ts'
import { type RecordId, textLimits } from '@/lib/board/identity.ts'
import type { StepText } from '@/lib/board/operative-steps.ts'
import type { OperativeStep } from '@/lib/board/records/operative-step.ts'
import { closesCircle, stepFinder } from '@/lib/board/step-needs.ts'
import { NeedsField } from './needs-field.tsx'
import styles from './step-words.module.css'

interface StepWordsFormProps {
  /** the step to change; absent for a new one */
  readonly step?: OperativeStep
  /** all steps, in order */
  readonly steps: readonly OperativeStep[]
  readonly submit: string
  readonly onSubmit: (words: StepText, needs: readonly RecordId[]) => void
}

const noWords: StepText = { title: '', check: '', hazard: '' }

/** Title, check, hazard and prerequisites of a step; sent whole, so that nobody reads half a step in theatre. */
export function StepWordsForm({ step, steps, submit, onSubmit }: StepWordsFormProps) {
  const { steps: labels } = useMessages()
  const [draft, setDraft] = useState<StepText>(step ?? noWords)
  const [needs, setNeeds] = useState<readonly RecordId[]>(step?.needs ?? [])
  const send = (event: FormEvent) => {
    event.preventDefault()
    const standing = needs.filter((need) => steps.some(({ id }) => id === need))
    onSubmit({ title: draft.title.trim(), check: draft.check.trim(), hazard: draft.hazard.trim() }, standing)
  }
  return (
    <form className={styles.form} onSubmit={send}>
      <Field label={labels.title}>
        {(control) => (
          <input
            {...control}
            data-first
            required
            pattern=".*\S.*"
            maxLength={textLimits.short}
            value={draft.title}
            onChange={(event) => setDraft({ ...draft, title: event.target.value })}
          />
        )}
      </Field>
      <Field label={labels.check}>
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
      <Field label={labels.hazard}>
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
      <NeedsField choices={choicesFor(step, steps)} needs={needs} onChange={setNeeds} />
      <Button type="submit" tone="accent">
        {submit}
      </Button>
    </form>
  )
}

/** Every other step but those that need this one themselves. */
function choicesFor(own: OperativeStep | undefined, steps: readonly OperativeStep[]) {
  const stepOf = stepFinder(steps)
  return steps
    .map((step, index) => ({ step, number: index + 1 }))
    .filter(({ step }) => own === undefined || (step.id !== own.id && !closesCircle(own.id, [step.id], stepOf)))
}
