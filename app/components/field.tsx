import { type ReactNode, useId } from 'react'
import styles from './field.module.css'

/** Spread on the input, select or textarea. */
export interface FieldControl {
  readonly id: string
  readonly 'aria-describedby': string | undefined
  readonly 'aria-invalid': true | undefined
}

interface FieldProps {
  readonly label: string
  readonly hint?: ReactNode
  /** what is wrong with the value, and what to do */
  readonly error?: string | undefined
  readonly children: (control: FieldControl) => ReactNode
}

/** A labelled control: `<Field label="Name">{(control) => <input {...control} />}</Field>`. */
export function Field({ label, hint, error, children }: FieldProps) {
  const id = useId()
  const hintId = `${id}-hint`
  const errorId = `${id}-error`
  const described = [hint === undefined ? [] : hintId, error === undefined ? [] : errorId].flat().join(' ')
  return (
    <div className={styles.field}>
      <label className={styles.label} htmlFor={id}>
        {label}
      </label>
      {hint !== undefined && (
        <div className={styles.hint} id={hintId}>
          {hint}
        </div>
      )}
      {children({
        id,
        'aria-describedby': described === '' ? undefined : described,
        'aria-invalid': error === undefined ? undefined : true,
      })}
      {error !== undefined && (
        <div className={styles.error} id={errorId} role="alert">
          {error}
        </div>
      )}
    </div>
  )
}
