'use client'

import { type FormEvent, useState } from 'react'
import { useBoard, useTable } from '@/app/board/board-context.tsx'
import { usePostGuard } from '@/app/board/post-guard.tsx'
import { Button } from '@/app/components/button.tsx'
import { Field } from '@/app/components/field.tsx'
import { LeavableForm } from '@/app/components/leavable-form.tsx'
import { LimitedText } from '@/app/components/limited-text.tsx'
import { useMessages } from '@/app/messages/for-follow-up.ts'
import { addVisitItem } from '@/lib/board/edits/visits.ts'
import { type RecordId, textLimits } from '@/lib/board/identity.ts'
import { PointRoute } from '@/lib/board/records/hearing-test.ts'
import type { Question } from '@/lib/board/records/question.ts'
import type { Visit } from '@/lib/board/records/visit.ts'
import type { VisitItem, WantedThresholds } from '@/lib/board/records/visit-item.ts'
import { Ear, type FrequencyHz, isFrequencyHz } from '@/lib/units/frequencies.ts'
import styles from './visit-items.module.css'

interface NewItemProps {
  readonly ear: Ear
  readonly visit: Visit
  readonly items: readonly VisitItem[]
}

/** Deferred questions that wait for a visit, and whatever else this one is not to forget. */
export function NewItem({ ear, visit, items }: NewItemProps) {
  const { followUp } = useMessages()
  const [open, setOpen] = useState<{ readonly question?: Question }>()
  const taken = new Set(items.filter(({ state }) => state !== 'dropped').map(({ question }) => question))
  const waiting = useTable('questions').filter(({ id, state }) => state === 'deferred' && !taken.has(id))
  const words = followUp.items
  return (
    <>
      {waiting.length > 0 && (
        <section className={styles.waiting} aria-label={words.waiting}>
          <h3 className={styles.heading}>{words.waiting}</h3>
          <ul className={styles.list}>
            {waiting.map((question) => (
              <li key={question.id} className={styles.question}>
                <span dir="auto">
                  {question.text}
                  {question.deferredTo !== undefined && (
                    <span className={styles.fine} dir="auto">
                      {' '}
                      {question.deferredTo}
                    </span>
                  )}
                </span>
                <Button onClick={() => setOpen({ question })}>{words.takeUp}</Button>
              </li>
            ))}
          </ul>
        </section>
      )}
      {open === undefined ? (
        <div>
          <Button onClick={() => setOpen({})}>{words.add}</Button>
        </div>
      ) : (
        <ItemForm
          key={open.question?.id ?? 'new'}
          ear={ear}
          visit={visit.id}
          question={open.question}
          onDone={() => setOpen(undefined)}
        />
      )}
    </>
  )
}

/** Frequencies as typed, with spaces, commas or "kHz"; undefined when one of them is not on the list. */
export function readFrequencies(typed: string): readonly FrequencyHz[] | undefined {
  const numbers = typed
    .split(/[\s,;]+/)
    .filter((part) => part !== '' && !/^k?hz$/i.test(part))
    .map((part) => Number(part))
    .map((number) => (number < 100 ? number * 1000 : number))
  if (numbers.length === 0 || !numbers.every(isFrequencyHz)) return undefined
  return [...new Set(numbers.filter(isFrequencyHz))].toSorted((a, b) => a - b)
}

/** What a question names of frequencies: "at 4, 6 and 8 kHz". */
function frequenciesNamedIn(text: string): string {
  const unit = /k\s?hz/i.test(text) ? 1000 : 1
  const named = (text.match(/\d+(?:\.\d+)?/g) ?? []).map((number) => Number(number) * unit).filter(isFrequencyHz)
  return [...new Set(named)].join(' ')
}

interface ItemFormProps {
  readonly ear: Ear
  readonly visit: RecordId
  readonly question: Question | undefined
  readonly onDone: () => void
}

function ItemForm({ ear: planned, visit, question, onDone }: ItemFormProps) {
  const { followUp, words, shell } = useMessages()
  const { record, pen } = useBoard()
  const beforePosting = usePostGuard()
  const [text, setText] = useState(question?.text.slice(0, textLimits.short) ?? '')
  const [typed, setTyped] = useState(() => frequenciesNamedIn(question?.text ?? ''))
  const [route, setRoute] = useState<PointRoute | ''>(typed === '' ? '' : 'air')
  const [ear, setEar] = useState(planned)
  const [tried, setTried] = useState(false)
  const labels = followUp.items
  const frequencies = readFrequencies(typed)
  const isMissing = text.trim() === ''
  const isWrong = route !== '' && frequencies === undefined
  const add = (event: FormEvent) => {
    event.preventDefault()
    setTried(true)
    if (isMissing || isWrong || text.length > textLimits.short) return
    const wanted: WantedThresholds | undefined =
      route === '' || frequencies === undefined ? undefined : { ear, route, frequencies: [...frequencies] }
    beforePosting(text, () => {
      addVisitItem(record, pen, {
        visit,
        words: text.trim(),
        ...(wanted === undefined ? {} : { wanted }),
        ...(question === undefined ? {} : { question: question.id }),
      })
      onDone()
    })
  }
  return (
    <LeavableForm className={styles.form} onSubmit={add} onLeave={onDone}>
      <LimitedText
        label={labels.words}
        limit={textLimits.short}
        value={text}
        onChange={setText}
        error={tried && isMissing ? labels.missingText : undefined}
      />
      <div className={styles.fields}>
        <Field label={labels.measure}>
          {(control) => (
            <select
              {...control}
              value={route}
              onChange={({ target }) => setRoute(PointRoute.options.find((one) => one === target.value) ?? '')}
            >
              <option value="">{labels.nothingToMeasure}</option>
              {PointRoute.options.map((one) => (
                <option key={one} value={one}>
                  {labels.routes[one]}
                </option>
              ))}
            </select>
          )}
        </Field>
        {route !== '' && (
          <>
            <Field label={labels.ear}>
              {(control) => (
                <select {...control} value={ear} onChange={({ target }) => setEar(Ear.parse(target.value))}>
                  {Ear.options.map((one) => (
                    <option key={one} value={one}>
                      {words.ear[one]}
                    </option>
                  ))}
                </select>
              )}
            </Field>
            <Field
              label={labels.frequencies}
              hint={labels.measureHint}
              error={tried && isWrong ? labels.frequenciesWrong : undefined}
            >
              {(control) => <input {...control} value={typed} onChange={({ target }) => setTyped(target.value)} />}
            </Field>
          </>
        )}
      </div>
      <div className={styles.buttons}>
        <Button type="submit" tone="accent">
          {labels.add}
        </Button>
        <Button tone="quiet" onClick={onDone}>
          {shell.cancel}
        </Button>
      </div>
    </LeavableForm>
  )
}
