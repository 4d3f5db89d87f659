'use client'

import { FrequencyField } from '@/app/board/floor/place-fields.tsx'
import { Field } from '@/app/components/field.tsx'
import { useMessages } from '@/app/messages/for-decisions.ts'
import { amountUnit, isLimit } from '@/lib/board/trigger-sentence.ts'
import { ChoiceField } from './choice-field.tsx'
import forms from './forms.module.css'
import { amountRange, changes, type MeasuredEntry, measures, references } from './trigger-entry.ts'

interface TriggerFieldsProps {
  readonly entry: MeasuredEntry
  readonly onChange: (entry: MeasuredEntry) => void
  /** whether faults are said yet: not before somebody has tried to save */
  readonly showFaults: boolean
}

/** The parts of a measured trigger: measure, band, change, amount and what it is held against. */
export function TriggerFields({ entry, onChange, showFaults }: TriggerFieldsProps) {
  const { decisions } = useMessages()
  const words = decisions.contingency
  const patch = (part: Partial<MeasuredEntry>) => onChange({ ...entry, ...part })
  const [least, most] = amountRange(entry.change)
  const amount = Number(entry.amount.replace(',', '.'))
  const isWrong = entry.amount.trim() === '' || !(amount >= least && amount <= most)
  return (
    <div className={forms.fields}>
      <ChoiceField
        label={words.measure}
        value={entry.measure}
        options={measures}
        nameOf={(measure) => decisions.trigger.measure[measure]}
        onChange={(measure) => patch({ measure })}
      />
      <FrequencyField label={words.from} value={entry.from} onChange={(from) => patch({ from })} />
      <FrequencyField
        label={words.to}
        value={entry.to}
        onChange={(to) => patch({ to })}
        error={entry.from > entry.to ? words.bandOrder : undefined}
      />
      <ChoiceField
        label={words.change}
        value={entry.change}
        options={changes}
        nameOf={(change) => words.changes[change]}
        onChange={(change) => patch({ change })}
      />
      <Field
        label={words.amount(amountUnit(entry))}
        error={showFaults && isWrong ? words.amountWrong(least, most) : undefined}
      >
        {(control) => (
          <input
            {...control}
            type="text"
            inputMode="decimal"
            value={entry.amount}
            onChange={(event) => patch({ amount: event.target.value })}
          />
        )}
      </Field>
      {!isLimit(entry.change) && (
        <ChoiceField
          label={words.reference}
          value={entry.reference}
          options={references}
          nameOf={(reference) => decisions.trigger.reference[reference]}
          onChange={(reference) => patch({ reference })}
        />
      )}
    </div>
  )
}
