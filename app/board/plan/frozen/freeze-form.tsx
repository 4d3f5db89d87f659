'use client'

import { type FormEvent, type ReactNode, type Ref, useImperativeHandle, useState } from 'react'
import { useBoard, useMay, useTable } from '@/app/board/board-context.tsx'
import { usePostGuard } from '@/app/board/post-guard.tsx'
import { usePutOnScreen } from '@/app/board/put-on-screen.ts'
import { Button } from '@/app/components/button.tsx'
import { Field } from '@/app/components/field.tsx'
import { useSay } from '@/app/components/toast.tsx'
import { useMessages } from '@/app/messages/for-forecast.ts'
import { freezeScenario } from '@/lib/board/edits/forecast.ts'
import { type RecordId, textLimits } from '@/lib/board/identity.ts'
import { byRank } from '@/lib/board/reading.ts'
import type { EarOption } from '@/lib/forecast/ear-options.ts'
import type { WhatIf } from '../case-forecast.ts'
import { sealer } from '../page-sealer.ts'
import { sealingText } from '../sealing-text.ts'
import { conditionParts } from '../what-if/spoken-answer.ts'
import styles from './freeze-form.module.css'
import { standingScenarios } from './standing-scenarios.ts'

/** What the section around the form asks of it. */
export interface Freezing {
  /** as the button does it; nothing for those who may not */
  freezeAndShow(): void
}

interface FreezeFormProps {
  readonly option: EarOption
  readonly whatIf: WhatIf
  readonly ref?: Ref<Freezing>
}

/** Writes the scenario into the record, with the question that it answers; for those who may. */
export default function FreezeForm({ option, whatIf, ref }: FreezeFormProps) {
  const { whatIf: words, forecast } = useMessages()
  const { record, pen } = useBoard()
  const may = useMay()
  const put = usePutOnScreen()
  const say = useSay()
  const beforePosting = usePostGuard()
  const [title, setTitle] = useState<string>()
  const [question, setQuestion] = useState('')
  const [supersedes, setSupersedes] = useState('')
  const [problem, setProblem] = useState<string>()
  const mayFreeze = may.mayCreate('scenarios') && option.outcome.ok
  const name = title ?? titleOf(conditionParts(whatIf.scenario, words))
  const freeze = (andShow: boolean) => {
    const text = name.trim()
    if (text === '') return setProblem(words.freeze.untitled)
    beforePosting(text, () => {
      const made = freezeScenario(record, pen, sealer, {
        title: text,
        option: option.option,
        profile: option.profile,
        ...whatIf,
        ...(question === '' ? {} : { question }),
        ...(supersedes === '' ? {} : { supersedes }),
      })
      if (!made.ok) return setProblem(words.freeze.cannot(sealingText(made.reason, forecast)))
      setProblem(undefined)
      setTitle(undefined)
      say(words.freeze.done)
      if (andShow) put?.({ kind: 'scenario', id: made.id })
    })
  }
  useImperativeHandle(ref, () => ({ freezeAndShow: () => mayFreeze && put !== undefined && freeze(true) }))
  if (!mayFreeze) return null
  return (
    <form
      className={styles.form}
      aria-label={words.freeze.title}
      noValidate
      onSubmit={(event: FormEvent) => {
        event.preventDefault()
        freeze(false)
      }}
    >
      <Field label={words.freeze.name} hint={words.freeze.hint} error={problem}>
        {(control) => (
          <input
            {...control}
            maxLength={textLimits.short}
            value={name}
            onChange={(event) => setTitle(event.currentTarget.value)}
          />
        )}
      </Field>
      <div className={styles.choices}>
        <QuestionChoice value={question} onChoose={setQuestion} />
        <SupersedesChoice value={supersedes} onChoose={setSupersedes} />
      </div>
      <div className={styles.buttons}>
        <Button type="submit" tone="accent">
          {words.freeze.submit}
        </Button>
        {put !== undefined && (
          <Button aria-keyshortcuts="s" onClick={() => freeze(true)}>
            {words.freeze.andShow}
          </Button>
        )}
      </div>
    </form>
  )
}

const titleOf = (parts: readonly string[]): string => {
  const text = parts.join(', ')
  return `${text.charAt(0).toUpperCase()}${text.slice(1)}`.slice(0, textLimits.short)
}

interface ChoiceProps {
  readonly value: RecordId | ''
  readonly onChoose: (id: RecordId | '') => void
}

function QuestionChoice({ value, onChoose }: ChoiceProps) {
  const { whatIf } = useMessages()
  const questions = useTable('questions')
  const open = questions.filter(({ state }) => state === 'called' || state === 'raised' || state === 'deferred')
  if (open.length === 0) return null
  return (
    <Choice label={whatIf.freeze.question} none={whatIf.freeze.noQuestion} value={value} onChoose={onChoose}>
      {open.toSorted(byRank).map(({ id, text }) => (
        <option key={id} value={id}>
          {text.slice(0, 80)}
        </option>
      ))}
    </Choice>
  )
}

function SupersedesChoice({ value, onChoose }: ChoiceProps) {
  const { whatIf } = useMessages()
  const standing = standingScenarios(useTable('scenarios'))
  if (standing.length === 0) return null
  return (
    <Choice label={whatIf.freeze.supersedes} none={whatIf.freeze.nothing} value={value} onChoose={onChoose}>
      {standing.map(({ id, title }) => (
        <option key={id} value={id}>
          {title}
        </option>
      ))}
    </Choice>
  )
}

interface SelectProps extends ChoiceProps {
  readonly label: string
  readonly none: string
  readonly children: ReactNode
}

function Choice({ label, none, value, onChoose, children }: SelectProps) {
  return (
    <Field label={label}>
      {(control) => (
        <select {...control} value={value} onChange={(event) => onChoose(event.target.value)}>
          <option value="">{none}</option>
          {children}
        </select>
      )}
    </Field>
  )
}
