import { Field } from '@/app/components/field.tsx'
import { useMessages } from '@/app/messages/for-decisions.ts'
import { soundPressureRange } from '@/lib/units/levels.ts'
import { ChoiceField } from './choice-field.tsx'
import forms from './forms.module.css'
import { conditions, type WordsEntry, wordsReferences } from './trigger-entry.ts'

interface WordsTriggerFieldsProps {
  readonly entry: WordsEntry
  readonly onChange: (entry: WordsEntry) => void
  /** the level is missing, no number, or out of range */
  readonly isWrong: boolean
}

/** The parts of a trigger on word scores: condition, level in quiet, and the score that it is held against. */
export function WordsTriggerFields({ entry, onChange, isWrong }: WordsTriggerFieldsProps) {
  const { decisions, words: terms } = useMessages()
  const words = decisions.contingency
  const { low, high } = soundPressureRange
  return (
    <div className={forms.fields}>
      <ChoiceField
        label={words.condition}
        value={entry.condition}
        options={conditions}
        nameOf={(condition) => terms.condition[condition]}
        onChange={(condition) => onChange({ ...entry, condition })}
      />
      <Field
        label={words.speechLevel}
        hint={words.wordsHint}
        error={isWrong ? words.amountWrong(low, high) : undefined}
      >
        {(control) => (
          <input
            {...control}
            type="text"
            inputMode="decimal"
            value={entry.level}
            onChange={({ target }) => onChange({ ...entry, level: target.value })}
          />
        )}
      </Field>
      <ChoiceField
        label={words.reference}
        value={entry.reference}
        options={wordsReferences}
        nameOf={(reference) => decisions.trigger.reference[reference]}
        onChange={(reference) => onChange({ ...entry, reference })}
      />
    </div>
  )
}
