import { Field } from '@/app/components/field.tsx'

interface ChoiceFieldProps<T extends string> {
  readonly label: string
  readonly value: T
  readonly options: readonly T[]
  readonly nameOf: (option: T) => string
  readonly onChange: (option: T) => void
}

/** A labelled choice of one of several words. */
export function ChoiceField<T extends string>({ label, value, options, nameOf, onChange }: ChoiceFieldProps<T>) {
  const take = (chosen: string) => {
    const option = options.find((one) => one === chosen)
    if (option !== undefined) onChange(option)
  }
  return (
    <Field label={label}>
      {(control) => (
        <select {...control} value={value} onChange={(event) => take(event.target.value)}>
          {options.map((option) => (
            <option key={option} value={option}>
              {nameOf(option)}
            </option>
          ))}
        </select>
      )}
    </Field>
  )
}
