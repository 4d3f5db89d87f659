'use client'

import { Field } from '@/app/components/field.tsx'
import { useMessages } from '@/app/messages/for-decisions.ts'
import type { RecordId } from '@/lib/board/identity.ts'
import styles from './card.module.css'
import type { DecisionsDesk } from './decisions-desk.ts'

interface StepChoiceProps {
  readonly of: { readonly kind: 'notes' | 'contingencies'; readonly id: RecordId; readonly step?: RecordId | undefined }
  readonly desk: Pick<DecisionsDesk, 'steps' | 'acts'>
}

/** Under which step of the operation something is filed. */
export function StepChoice({ of: { kind, id, step }, desk }: StepChoiceProps) {
  const { decisions } = useMessages()
  if (desk.steps.length === 0) return null
  return (
    <Field label={decisions.step.label}>
      {(control) => (
        <select
          {...control}
          value={desk.steps.some((choice) => choice.id === step) ? step : ''}
          onChange={({ target }) => desk.acts.fileUnder(kind, id, target.value === '' ? undefined : target.value)}
        >
          <option value="">{decisions.step.none}</option>
          {desk.steps.map((choice) => (
            <option key={choice.id} value={choice.id}>
              {choice.label}
            </option>
          ))}
        </select>
      )}
    </Field>
  )
}

/** The step that something is filed under, in a line. */
export function StepLine({ step, desk }: { readonly step: RecordId | undefined } & Pick<StepChoiceProps, 'desk'>) {
  const { decisions } = useMessages()
  const filed = desk.steps.find(({ id }) => id === step)
  if (filed === undefined) return null
  return (
    <p className={styles.fine} dir="auto">
      {decisions.step.filed(filed.label)}
    </p>
  )
}
