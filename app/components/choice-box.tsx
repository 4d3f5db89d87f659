'use client'

import { type KeyboardEvent, useId, useState } from 'react'
import styles from './choice-box.module.css'
import { Field } from './field.tsx'

export interface Choice {
  readonly id: string
  /** what it is, in front of its words */
  readonly sort?: string
  readonly label: string
}

interface ChoiceBoxProps {
  readonly label: string
  readonly hint?: string
  /** in the order in which they are offered while nothing is typed */
  readonly choices: readonly Choice[]
  /** said when no choice has the words typed */
  readonly none: string
  readonly onChoose: (id: string) => void
  readonly focusAtOnce?: boolean
}

const shown = 8

/** Finds one among many by typing words of it: arrows and Enter choose, the pointer too. */
export function ChoiceBox({ label, hint, choices, none, onChoose, focusAtOnce = false }: ChoiceBoxProps) {
  const [words, setWords] = useState('')
  const [at, setAt] = useState(0)
  const listId = useId()
  const found = choices.filter(hasWords(words)).slice(0, shown)
  const active = Math.min(at, found.length - 1)
  const onKeyDown = (event: KeyboardEvent) => {
    const step = { ArrowDown: 1, ArrowUp: -1 }[event.key]
    const choice = found[active]
    if (step !== undefined) setAt(Math.max(0, Math.min(active + step, found.length - 1)))
    else if (event.key === 'Enter' && choice !== undefined) onChoose(choice.id)
    else return
    event.preventDefault()
  }
  return (
    <div className={styles.box}>
      <Field label={label} {...(hint === undefined ? {} : { hint })}>
        {(control) => (
          <input
            {...control}
            type="text"
            role="combobox"
            autoComplete="off"
            aria-autocomplete="list"
            aria-expanded={found.length > 0}
            aria-controls={listId}
            aria-activedescendant={found.length > 0 ? `${listId}-${active}` : undefined}
            // biome-ignore lint/a11y/noAutofocus: the box opens because somebody asked for it with a key
            autoFocus={focusAtOnce}
            data-first={focusAtOnce || undefined}
            value={words}
            onChange={(event) => {
              setWords(event.target.value)
              setAt(0)
            }}
            onKeyDown={onKeyDown}
          />
        )}
      </Field>
      {found.length === 0 && <p className={styles.none}>{none}</p>}
      <div id={listId} className={styles.list} role="listbox" aria-label={label} hidden={found.length === 0}>
        {found.map((choice, index) => (
          <button
            type="button"
            key={choice.id}
            id={`${listId}-${index}`}
            className={styles.choice}
            role="option"
            tabIndex={-1}
            aria-selected={index === active}
            onPointerEnter={() => setAt(index)}
            onClick={() => onChoose(choice.id)}
          >
            {choice.sort !== undefined && <span className={styles.sort}>{choice.sort}</span>}
            <span className={styles.label} dir="auto">
              {choice.label}
            </span>
          </button>
        ))}
      </div>
    </div>
  )
}

/** Whether a choice has every one of the words, in any order and case. */
function hasWords(words: string): (choice: Choice) => boolean {
  const wanted = words.toLowerCase().split(/\s+/).filter(Boolean)
  return ({ label, sort = '' }) => {
    const text = `${sort} ${label}`.toLowerCase()
    return wanted.every((word) => text.includes(word))
  }
}
