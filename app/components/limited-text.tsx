'use client'

import type { CSSProperties, KeyboardEvent, Ref } from 'react'
import { useMessages } from '@/app/messages/use-messages.ts'
import { Field } from './field.tsx'
import styles from './limited-text.module.css'

interface LimitedTextProps {
  readonly label: string
  readonly value: string
  /** characters that the record takes */
  readonly limit: number
  readonly onChange: (text: string) => void
  readonly hint?: string
  readonly placeholder?: string
  /** lines shown while it is empty; it grows with its text */
  readonly lines?: number
  /** what else is wrong with the text */
  readonly error?: string | undefined
  readonly ref?: Ref<HTMLTextAreaElement>
  /** the key that sends the form around it: Enter where one line is expected */
  readonly sendKey?: 'Enter' | 'Ctrl+Enter'
  /** has the focus when its dialog opens */
  readonly isFirst?: boolean
}

/** A text with a limit. It takes more than the limit and says so: what somebody pasted is never cut. */
export function LimitedText({ label, value, limit, onChange, ...rest }: LimitedTextProps) {
  const { hint, placeholder, lines = 1, error, ref = null, sendKey = 'Ctrl+Enter', isFirst = false } = rest
  const { floor } = useMessages()
  const tooLong = value.length > limit ? floor.text.tooLong(value.length, limit) : undefined
  const count = floor.text.count(value.length, limit)
  const room = { '--count-letters': count.length } as CSSProperties
  return (
    <div className={styles.limited} data-over={tooLong !== undefined} style={room}>
      <Field label={label} error={tooLong ?? error} {...(hint === undefined ? {} : { hint })}>
        {(control) => (
          <textarea
            {...control}
            ref={ref}
            data-first={isFirst || undefined}
            className={styles.text}
            rows={lines}
            dir="auto"
            placeholder={placeholder}
            value={value}
            onChange={(event) => onChange(event.target.value)}
            onKeyDown={(event) => sendOnKey(event, sendKey)}
          />
        )}
      </Field>
      <span className={styles.count} aria-hidden="true">
        {count}
      </span>
    </div>
  )
}

function sendOnKey(event: KeyboardEvent<HTMLTextAreaElement>, sendKey: 'Enter' | 'Ctrl+Enter'): void {
  if (event.key !== 'Enter' || event.nativeEvent.isComposing || event.shiftKey) return
  if (sendKey === 'Ctrl+Enter' && !event.ctrlKey && !event.metaKey) return
  event.preventDefault()
  event.currentTarget.form?.requestSubmit()
}
