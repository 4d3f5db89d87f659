'use client'

import { type FormEvent, useState } from 'react'
import { useBoard, useTable } from '@/app/board/board-context.tsx'
import { usePostGuard } from '@/app/board/post-guard.tsx'
import { Button } from '@/app/components/button.tsx'
import { Field } from '@/app/components/field.tsx'
import { LeavableForm } from '@/app/components/leavable-form.tsx'
import { useSay } from '@/app/components/toast.tsx'
import { useMessages } from '@/app/messages/for-votes.ts'
import { openVote } from '@/lib/board/edits/votes.ts'
import { textLimits } from '@/lib/board/identity.ts'
import { byRank } from '@/lib/board/reading.ts'
import { voteLimits } from '@/lib/board/records/vote.ts'
import { plainText } from '@/lib/board/rich-text.ts'
import styles from './new-vote-form.module.css'

/** The question, what it is about, its options, and whether one is asked how sure one is. */
export function NewVoteForm({ onDone }: { onDone: () => void }) {
  const { votes, shell } = useMessages()
  const { record, pen } = useBoard()
  const say = useSay()
  const beforePosting = usePostGuard()
  const decisions = useDecisions()
  const [question, setQuestion] = useState('')
  const [note, setNote] = useState('')
  const [options, setOptions] = useState<readonly string[]>(Array<string>(voteLimits.fewest).fill(''))
  const [asksConfidence, setAsksConfidence] = useState(true)
  const [tried, setTried] = useState(false)
  const given = [...new Set(options.map((option) => option.trim()).filter((option) => option !== ''))]
  const fault = { question: textFault(question), options: given.length < voteLimits.fewest ? votes.tooFew : undefined }

  function textFault(text: string): string | undefined {
    if (text.trim() === '') return votes.missing
    return text.trim().length > textLimits.short ? votes.tooLong(textLimits.short) : undefined
  }
  const start = (event: FormEvent) => {
    event.preventDefault()
    setTried(true)
    if (fault.question !== undefined || fault.options !== undefined) return
    beforePosting([question, ...given].join('\n'), () => {
      openVote(record, pen, {
        question: question.trim(),
        options: given,
        asksConfidence,
        ...(note === '' ? {} : { note }),
      })
      say(votes.started)
      onDone()
    })
  }
  const write = (place: number, text: string) => {
    const written = options.map((option, index) => (index === place ? text : option))
    const isFull = written.every((option) => option !== '') && written.length < voteLimits.most
    setOptions(isFull ? [...written, ''] : written)
  }
  return (
    <LeavableForm className={styles.form} onSubmit={start} onLeave={onDone}>
      <Field label={votes.question} error={tried ? fault.question : undefined}>
        {(control) => (
          <input
            {...control}
            // biome-ignore lint/a11y/noAutofocus: the form opens because somebody asked for it
            autoFocus
            value={question}
            onChange={(event) => setQuestion(event.currentTarget.value)}
          />
        )}
      </Field>
      <Field label={votes.about}>
        {(control) => (
          <select {...control} value={note} onChange={(event) => setNote(event.currentTarget.value)}>
            <option value="">{votes.aboutNothing}</option>
            {decisions.map(({ id, label }) => (
              <option key={id} value={id}>
                {label}
              </option>
            ))}
          </select>
        )}
      </Field>
      {options.map((option, place) => (
        <Field
          key={votes.option(place + 1)}
          label={votes.option(place + 1)}
          {...(place === 0 ? { hint: votes.optionHint, error: tried ? fault.options : undefined } : {})}
        >
          {(control) => (
            <input
              {...control}
              maxLength={voteLimits.option}
              value={option}
              onChange={(event) => write(place, event.currentTarget.value)}
            />
          )}
        </Field>
      ))}
      <label className={styles.check}>
        <input
          type="checkbox"
          checked={asksConfidence}
          onChange={(event) => setAsksConfidence(event.currentTarget.checked)}
        />
        {votes.asksConfidence}
      </label>
      <div className={styles.buttons}>
        <Button type="submit" tone="accent">
          {votes.start}
        </Button>
        <Button tone="quiet" onClick={onDone}>
          {shell.cancel}
        </Button>
      </div>
    </LeavableForm>
  )
}

const labelLength = 80

function useDecisions() {
  return useTable('notes')
    .filter(({ kind, struck }) => kind === 'decision' && struck === undefined)
    .sort(byRank)
    .map(({ id, body }) => ({ id, label: plainText(body).slice(0, labelLength).trim() }))
}
