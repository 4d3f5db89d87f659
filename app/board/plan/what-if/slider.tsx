'use client'

import { type ReactNode, useId, useState } from 'react'
import { useMessages } from '@/app/messages/for-forecast.ts'
import styles from './slider.module.css'

interface SliderProps {
  readonly label: string
  readonly hint?: string
  readonly unit: string
  /** where the slider stands, in its own steps */
  readonly position: number
  readonly longest: number
  readonly step: number
  /** the same in the unit, as it is typed */
  readonly value: number
  readonly smallest: number
  readonly largest: number
  /** the value for a voice */
  readonly spoken: string
  readonly disabled?: boolean
  readonly onSlide: (position: number) => void
  readonly onType: (value: number) => void
  /** stands above the slider: where, or how sure */
  readonly children?: ReactNode
}

/** One quantity that may change: a slider, and the value in its unit beside it, which can be typed. */
export function Slider(props: SliderProps) {
  const { whatIf } = useMessages()
  const id = useId()
  const hintId = `${id}-hint`
  const { label, hint, unit, position, longest, step, spoken, disabled = false } = props
  return (
    <div className={styles.slider}>
      <div className={styles.head}>
        <label className={styles.label} htmlFor={id}>
          {label}
        </label>
        <TypedValue {...props} name={whatIf.typed(label)} />
        <span className={styles.unit}>{unit}</span>
      </div>
      {props.children}
      <input
        id={id}
        className={styles.range}
        type="range"
        min={0}
        max={longest}
        step={step}
        value={position}
        disabled={disabled}
        aria-valuetext={spoken}
        aria-describedby={hint === undefined ? undefined : hintId}
        onChange={(event) => props.onSlide(event.currentTarget.valueAsNumber)}
      />
      {hint !== undefined && (
        <span className={styles.hint} id={hintId}>
          {hint}
        </span>
      )}
    </div>
  )
}

/** What is typed counts while it is a number of the domain; otherwise the last value stays and the field says so. */
function TypedValue({ name, value, smallest, largest, disabled, onType }: SliderProps & { readonly name: string }) {
  const [typed, setTyped] = useState<string>()
  const number = typed === undefined || typed.trim() === '' ? Number.NaN : Number(typed)
  const isWrong = typed !== undefined && !(number >= smallest && number <= largest)
  return (
    <input
      className={styles.typed}
      type="number"
      inputMode="decimal"
      min={smallest}
      max={largest}
      step="any"
      aria-label={name}
      aria-invalid={isWrong || undefined}
      disabled={disabled}
      value={typed ?? String(value)}
      onChange={(event) => {
        const text = event.currentTarget.value
        const next = Number(text)
        setTyped(text)
        if (text.trim() !== '' && next >= smallest && next <= largest) onType(next)
      }}
      onBlur={() => setTyped(undefined)}
    />
  )
}
