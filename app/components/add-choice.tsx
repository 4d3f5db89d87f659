'use client'

import { type FormEvent, useState } from 'react'
import styles from './add-choice.module.css'
import { Button } from './button.tsx'
import { Field } from './field.tsx'

interface AddChoiceProps {
  readonly label: string
  /** what stands in the field while nothing is chosen */
  readonly prompt: string
  readonly add: string
  /** value and name of each */
  readonly options: readonly (readonly [value: string, name: string])[]
  readonly onAdd: (value: string) => void
}

/**
 * Chooses one of several things and then adds it. Two steps, because the arrow keys of a closed list choose at once: a list
 * that acts by itself would let the keyboard have nothing but its first line.
 */
export function AddChoice({ label, prompt, add, options, onAdd }: AddChoiceProps) {
  const [chosen, setChosen] = useState('')
  const value = options.some(([each]) => each === chosen) ? chosen : ''
  const submit = (event: FormEvent) => {
    event.preventDefault()
    if (value === '') return
    onAdd(value)
    setChosen('')
  }
  return (
    <form className={styles.form} onSubmit={submit}>
      <Field label={label}>
        {(control) => (
          <select {...control} value={value} onChange={({ target }) => setChosen(target.value)}>
            <option value="">{prompt}</option>
            {options.map(([each, name]) => (
              <option key={each} value={each}>
                {name}
              </option>
            ))}
          </select>
        )}
      </Field>
      <Button type="submit" disabled={value === ''}>
        {add}
      </Button>
    </form>
  )
}
