'use client'

import { type FormEvent, type ReactNode, useEffect, useId, useRef, useState } from 'react'
import { stopPick } from '@/app/board/chart-pick.ts'
import { Button } from '@/app/components/button.tsx'
import { ChoiceBox } from '@/app/components/choice-box.tsx'
import { Field } from '@/app/components/field.tsx'
import { useKeptText } from '@/app/components/kept-text.ts'
import { LeavableForm, leaveOnEscape } from '@/app/components/leavable-form.tsx'
import { LimitedText } from '@/app/components/limited-text.tsx'
import { useMessages as useOwnMessages } from '@/app/messages/for-own-questions.ts'
import { useMessages } from '@/app/messages/use-messages.ts'
import type { Thread } from '@/lib/board/edits/floor.ts'
import { likeness, wordsOf } from '@/lib/board/likeness.ts'
import type { Anchor } from '@/lib/board/records/question.ts'
import { AnchorField } from './anchor-field.tsx'
import type { FloorDesk } from './floor-desk.ts'
import { floorLimits } from './limits.ts'
import styles from './question-forms.module.css'

interface TaskProps {
  readonly thread: Thread
  readonly desk: FloorDesk
  /** the form is done or left */
  readonly onDone: () => void
}

interface TaskFormProps {
  readonly submit: string
  readonly onSubmit: () => void
  readonly onDone: () => void
  readonly children: ReactNode
}

/** A form inside a question: Escape leaves it (what was typed is kept for the next time). */
function TaskForm({ submit, onSubmit, onDone, children }: TaskFormProps) {
  const { shell } = useMessages()
  const send = (event: FormEvent) => {
    event.preventDefault()
    onSubmit()
  }
  return (
    <LeavableForm className={styles.form} onSubmit={send} onLeave={onDone}>
      {children}
      <div className={styles.buttons}>
        <Button type="submit" tone="accent">
          {submit}
        </Button>
        <Button tone="quiet" onClick={onDone}>
          {shell.cancel}
        </Button>
      </div>
    </LeavableForm>
  )
}

const focusIt = (field: HTMLTextAreaElement | null) => field?.focus()

/** One line and who said it. The speaker of the last answer is offered again: it is mostly the surgeon. */
export function AnswerForm({ thread: { question }, desk, onDone }: TaskProps) {
  const { floor } = useMessages()
  const words = useKeptText(`answer:${question.id}`, question.answer?.text)
  const speaker = useKeptText('said-by', question.answer?.saidBy)
  const [missing, setMissing] = useState(false)
  const closes = desk.may.mayMove('questions', question, 'answered')
  const submit = () => {
    const text = words.text.trim()
    setMissing(text === '')
    if (text === '' || text.length > floorLimits.answer || speaker.text.length > floorLimits.saidBy) return
    const write = closes ? desk.acts.answer : desk.acts.draftAnswer
    desk.beforePosting(text, () => {
      write(question.id, text, speaker.text.trim())
      words.clear()
      onDone()
    })
  }
  return (
    <TaskForm submit={closes ? floor.form.saveAnswer : floor.form.writeAnswer} onSubmit={submit} onDone={onDone}>
      <LimitedText
        ref={focusIt}
        label={floor.form.answer}
        limit={floorLimits.answer}
        sendKey="Enter"
        value={words.text}
        onChange={words.write}
        error={missing && words.text.trim() === '' ? floor.text.empty : undefined}
      />
      <SuggestedText
        label={floor.form.saidBy}
        value={speaker.text}
        onChange={speaker.write}
        limit={floorLimits.saidBy}
        suggestions={[...desk.people.values()].filter(({ role }) => role !== 'observer').map(({ name }) => name)}
      />
    </TaskForm>
  )
}

export function DeferForm({ thread: { question }, desk, onDone }: TaskProps) {
  const { floor } = useMessages()
  const words = useKeptText(`defer:${question.id}`, question.deferredTo)
  const [missing, setMissing] = useState(false)
  const submit = () => {
    const to = words.text.trim()
    setMissing(to === '')
    if (to === '' || to.length > floorLimits.deferredTo) return
    desk.acts.defer(question.id, to)
    words.clear()
    onDone()
  }
  return (
    <TaskForm submit={floor.form.saveDefer} onSubmit={submit} onDone={onDone}>
      <SuggestedText
        focusAtOnce
        label={floor.form.deferTo}
        hint={floor.form.deferHint}
        value={words.text}
        onChange={words.write}
        limit={floorLimits.deferredTo}
        suggestions={floor.form.deferSuggestions}
        error={missing && words.text.trim() === '' ? floor.text.empty : undefined}
      />
    </TaskForm>
  )
}

export function ReplyForm({ thread: { question }, desk, onDone }: TaskProps) {
  const { floor } = useMessages()
  const words = useKeptText(`reply:${question.id}`)
  const [missing, setMissing] = useState(false)
  const submit = () => {
    const text = words.text.trim()
    setMissing(text === '')
    if (text === '' || text.length > floorLimits.reply) return
    desk.beforePosting(text, async () => {
      if (!(await desk.acts.reply(question, text))) return
      words.clear()
      onDone()
    })
  }
  return (
    <TaskForm submit={floor.form.saveReply} onSubmit={submit} onDone={onDone}>
      <LimitedText
        ref={focusIt}
        label={floor.form.reply}
        limit={floorLimits.reply}
        value={words.text}
        onChange={words.write}
        error={missing && words.text.trim() === '' ? floor.text.empty : undefined}
      />
    </TaskForm>
  )
}

export function RewordForm({ thread: { question }, desk, onDone: close }: TaskProps) {
  const { floor } = useMessages()
  const words = useKeptText(`reword:${question.id}`, question.text)
  const [anchor, setAnchor] = useState<Anchor | undefined>(question.anchor)
  const onDone = () => {
    stopPick()
    close()
  }
  const submit = () => {
    const text = words.text.trim()
    if (text === '' || text.length > floorLimits.question) return
    desk.beforePosting(text, async () => {
      if (!(await desk.acts.reword(question, { text, ...(anchor === undefined ? {} : { anchor }) }))) return
      words.clear()
      onDone()
    })
  }
  return (
    <TaskForm submit={floor.form.saveEdit} onSubmit={submit} onDone={onDone}>
      <LimitedText
        ref={focusIt}
        label={floor.form.edit}
        limit={floorLimits.question}
        value={words.text}
        onChange={words.write}
        error={words.text.trim() === '' ? floor.text.empty : undefined}
      />
      <AnchorField anchor={anchor} onChange={setAnchor} desk={desk} />
    </TaskForm>
  )
}

/** Asked once more: the question goes from every page, with what was said to it. */
export function TakeBackForm({ thread: { question }, desk, onDone }: TaskProps) {
  const { ownQuestions } = useOwnMessages()
  const form = useRef<HTMLParagraphElement>(null)
  useEffect(() => form.current?.closest('form')?.querySelector('button')?.focus(), [])
  const submit = async () => {
    if (await desk.acts.takeBack(question)) onDone()
  }
  return (
    <TaskForm submit={ownQuestions.takeBack} onSubmit={submit} onDone={onDone}>
      <p ref={form}>{ownQuestions.takeBackHint}</p>
    </TaskForm>
  )
}

interface FoldFormProps extends TaskProps {
  readonly threads: readonly Thread[]
}

/** Folds the question into another one; those that share the most words come first. */
export function FoldForm({ thread: { question }, threads, desk, onDone }: FoldFormProps) {
  const { floor, shell } = useMessages()
  const fold = (into: string) => {
    desk.acts.fold(question.id, into)
    onDone()
  }
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: Escape inside the box leaves it; the box itself is the control
    <div className={styles.form} onKeyDown={leaveOnEscape(onDone)}>
      <ChoiceBox
        focusAtOnce
        label={floor.form.foldInto}
        hint={floor.form.foldHint}
        choices={mostAlike(question.text, question.id, threads)}
        none={floor.form.foldNone}
        onChoose={fold}
      />
      <div className={styles.buttons}>
        <Button tone="quiet" onClick={onDone}>
          {shell.cancel}
        </Button>
      </div>
    </div>
  )
}

function mostAlike(text: string, self: string, threads: readonly Thread[]) {
  const own = wordsOf(text)
  return threads
    .filter(({ question }) => question.id !== self)
    .map(({ question }) => ({ id: question.id, label: question.text, like: likeness(own, wordsOf(question.text)) }))
    .sort((a, b) => b.like - a.like)
}

interface SuggestedTextProps {
  readonly label: string
  readonly hint?: string
  readonly value: string
  readonly limit: number
  readonly onChange: (text: string) => void
  readonly suggestions: readonly string[]
  readonly error?: string | undefined
  readonly focusAtOnce?: boolean
}

function SuggestedText({ label, hint, value, limit, onChange, suggestions, error, focusAtOnce }: SuggestedTextProps) {
  const { floor } = useMessages()
  const listId = useId()
  const tooLong = value.length > limit ? floor.text.tooLong(value.length, limit) : undefined
  return (
    <Field label={label} error={tooLong ?? error} {...(hint === undefined ? {} : { hint })}>
      {(control) => (
        <>
          <input
            {...control}
            type="text"
            dir="auto"
            list={listId}
            autoComplete="off"
            // biome-ignore lint/a11y/noAutofocus: the form opens because somebody asked for it with a key
            autoFocus={focusAtOnce}
            value={value}
            onChange={(event) => onChange(event.target.value)}
          />
          <datalist id={listId}>
            {[...new Set(suggestions)].map((suggestion) => (
              <option key={suggestion} value={suggestion} />
            ))}
          </datalist>
        </>
      )}
    </Field>
  )
}
