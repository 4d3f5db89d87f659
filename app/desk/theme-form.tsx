'use client'

import { type FormEvent, useId, useState } from 'react'
import { Button } from '@/app/components/button.tsx'
import { Field } from '@/app/components/field.tsx'
import { LeavableForm } from '@/app/components/leavable-form.tsx'
import { useMessages } from '@/app/messages/for-desk.ts'
import type { Thread } from '@/lib/board/edits/floor.ts'
import { mostThemes, themeLength } from '@/lib/board/records/question.ts'
import styles from './theme-form.module.css'

interface ThemeFormProps {
  readonly thread: Thread
  /** those that other questions have */
  readonly known: readonly string[]
  readonly onTheme: (theme: string) => void
  readonly onDone: () => void
}

/** Files a question under a theme, or takes it out of one that it has. */
export function ThemeForm({ thread: { question }, known, onTheme, onDone }: ThemeFormProps) {
  const { desk, shell } = useMessages()
  const [words, setWords] = useState('')
  const listId = useId()
  const theme = words.trim().replace(/\s+/gu, ' ')
  const own = question.themes ?? []
  const isFull = own.length >= mostThemes && theme !== '' && !own.includes(theme)
  const error =
    theme.length > themeLength
      ? desk.floor.themeLong(themeLength)
      : isFull
        ? desk.floor.themeMany(mostThemes)
        : undefined
  const file = (event: FormEvent) => {
    event.preventDefault()
    if (error !== undefined) return
    if (theme !== '') onTheme(theme)
    onDone()
  }
  return (
    <LeavableForm className={styles.form} onSubmit={file} onLeave={onDone}>
      <Field label={desk.floor.theme} hint={desk.floor.themeHint} error={error}>
        {(control) => (
          <>
            <input
              {...control}
              type="text"
              dir="auto"
              list={listId}
              autoComplete="off"
              // biome-ignore lint/a11y/noAutofocus: the form opens because somebody asked for it with a key
              autoFocus
              value={words}
              onChange={(event) => setWords(event.target.value)}
            />
            <datalist id={listId}>
              {[...new Set([...own, ...known])].map((one) => (
                <option key={one} value={one} />
              ))}
            </datalist>
          </>
        )}
      </Field>
      <div className={styles.buttons}>
        <Button type="submit" tone="accent">
          {desk.floor.themeSave}
        </Button>
        <Button tone="quiet" onClick={onDone}>
          {shell.cancel}
        </Button>
      </div>
    </LeavableForm>
  )
}
