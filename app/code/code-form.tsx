'use client'

import { type FormEvent, useState } from 'react'
import { Button } from '@/app/components/button.tsx'
import { Field } from '@/app/components/field.tsx'
import { useMessages } from '@/app/messages/for-screens.ts'
import { parseRecordCode, type TypedCode } from '@/lib/interchange/record-code.ts'
import styles from './code-pane.module.css'

interface CodeFormProps {
  readonly read: TypedCode | undefined
  readonly onRead: (read: TypedCode | undefined) => void
}

const longestTyped = 60

/** Where a code is typed; says at once when it cannot be one. */
export function CodeForm({ read, onRead }: CodeFormProps) {
  const { code: words } = useMessages().screens
  const [typed, setTyped] = useState('')
  const submit = (event: FormEvent) => {
    event.preventDefault()
    onRead(parseRecordCode(typed))
  }
  return (
    <form className={styles.form} onSubmit={submit}>
      <Field label={words.label} error={read?.ok === false ? problemOf(read, words.problem) : undefined}>
        {(control) => (
          <input
            {...control}
            className={styles.input}
            value={typed}
            autoComplete="off"
            autoCapitalize="characters"
            spellCheck={false}
            maxLength={longestTyped}
            onChange={(event) => {
              setTyped(event.target.value)
              onRead(undefined)
            }}
          />
        )}
      </Field>
      <Button type="submit" tone="accent">
        {words.check}
      </Button>
    </form>
  )
}

type ProblemWords = ReturnType<typeof useMessages>['screens']['code']['problem']

function problemOf(read: Extract<TypedCode, { ok: false }>, words: ProblemWords): string {
  switch (read.problem) {
    case 'length':
      return words.length(read.characters, read.expected)
    case 'character':
      return words.character(read.character, read.position)
    case 'check':
      return words.check
    default:
      return read satisfies never
  }
}
