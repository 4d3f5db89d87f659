'use client'

import { useMessages } from '@/app/messages/for-steps.ts'
import type { RecordId } from '@/lib/board/identity.ts'
import { mostNeeds, type OperativeStep } from '@/lib/board/records/operative-step.ts'
import styles from './needs-field.module.css'

interface NeedsFieldProps {
  /** the steps to choose from, in order, with their place in the list */
  readonly choices: readonly { readonly step: OperativeStep; readonly number: number }[]
  readonly needs: readonly RecordId[]
  readonly onChange: (needs: readonly RecordId[]) => void
}

/** Which other steps are done before this one: a box for each. */
export function NeedsField({ choices, needs, onChange }: NeedsFieldProps) {
  const { steps } = useMessages()
  if (choices.length === 0) return null
  const toggle = (id: RecordId) => onChange(needs.includes(id) ? needs.filter((need) => need !== id) : [...needs, id])
  return (
    <fieldset className={styles.needs}>
      <legend>{steps.needs}</legend>
      <div className={styles.choices}>
        {choices.map(({ step, number }) => (
          <label key={step.id} className={styles.choice}>
            <input
              type="checkbox"
              checked={needs.includes(step.id)}
              disabled={needs.length >= mostNeeds && !needs.includes(step.id)}
              onChange={() => toggle(step.id)}
            />
            <span dir="auto">{steps.numbered(number, step.title)}</span>
          </label>
        ))}
      </div>
    </fieldset>
  )
}
