'use client'

import { type FormEvent, type RefObject, useRef, useState } from 'react'
import { usePostGuard } from '@/app/board/post-guard.tsx'
import { Button } from '@/app/components/button.tsx'
import { Field } from '@/app/components/field.tsx'
import { LeavableForm } from '@/app/components/leavable-form.tsx'
import { useMessages } from '@/app/messages/for-speech.ts'
import type { NewSpeechTest } from '@/lib/board/edits/speech.ts'
import { TestCondition } from '@/lib/board/records/hearing-test.ts'
import { SpeechTest } from '@/lib/board/records/speech-test.ts'
import { type EntryFault, type EntryField, readEntry, type SpeechEntry } from './speech-entry.ts'
import styles from './speech-form.module.css'

interface SpeechFormProps {
  readonly first: SpeechEntry
  /** today, ISO 8601 */
  readonly today: string
  /** how many current scores this one would supersede */
  readonly replaces: (test: NewSpeechTest) => number
  readonly onEnter: (test: NewSpeechTest) => void
  readonly onClose: () => void
}

/** One speech test in one line of fields. Enter takes it; the setting stays for the next one. */
export function SpeechForm({ first, today, replaces, onEnter, onClose }: SpeechFormProps) {
  const { speech } = useMessages()
  const beforePosting = usePostGuard()
  const [entry, setEntry] = useState(first)
  const [tried, setTried] = useState(false)
  const resultField = useRef<HTMLInputElement>(null)
  const read = readEntry(entry, today)
  const replaced = read.ok ? replaces(read.test) : 0
  const change = (patch: Partial<SpeechEntry>) => setEntry((before) => ({ ...before, ...patch }))
  const faultAt = (field: EntryField) => {
    const fault = tried && !read.ok ? read.faults[field] : undefined
    return fault && faultText(fault, speech.faults)
  }
  const submit = (event: FormEvent<HTMLFormElement>) => {
    event.preventDefault()
    setTried(true)
    if (!read.ok) {
      focusFirstFault(event.currentTarget)
      return
    }
    beforePosting(`${entry.listName}\n${entry.note}`, () => {
      onEnter(read.test)
      setTried(false)
      change({ right: '', receptionThreshold: '', note: '' })
      resultField.current?.focus()
    })
  }
  return (
    <LeavableForm className={styles.form} onSubmit={submit} onLeave={onClose}>
      <div className={styles.fields}>
        <Setting entry={entry} change={change} />
        <TextField name="listName" entry={entry} change={change} fault={faultAt('listName')} />
        {entry.measured === 'score' ? (
          <ScoreFields entry={entry} change={change} faultAt={faultAt} result={resultField} />
        ) : (
          <ResultField
            name="receptionThreshold"
            entry={entry}
            change={change}
            fault={faultAt('receptionThreshold')}
            result={resultField}
          />
        )}
        <Field label={speech.fields.performedOn} error={faultAt('performedOn')}>
          {(control) => (
            <input
              {...control}
              type="date"
              max={today}
              value={entry.performedOn}
              onChange={(event) => change({ performedOn: event.currentTarget.value })}
            />
          )}
        </Field>
        <TextField name="note" entry={entry} change={change} fault={faultAt('note')} />
      </div>
      {replaced > 0 && <p className={styles.replaces}>{speech.willReplace(replaced)}</p>}
      <div className={styles.buttons}>
        <Button type="submit" tone="accent">
          {speech.submit}
        </Button>
        <Button onClick={onClose}>{speech.close}</Button>
        <span className={styles.keys}>{speech.keys}</span>
      </div>
    </LeavableForm>
  )
}

/** The faults are in the page only after it was drawn again. */
function focusFirstFault(form: HTMLFormElement): void {
  requestAnimationFrame(() => form.querySelector<HTMLElement>('[aria-invalid]')?.focus())
}

type FaultWords = ReturnType<typeof useMessages>['speech']['faults']

function faultText(fault: EntryFault, words: FaultWords): string {
  switch (fault.code) {
    case 'out-of-range':
      return words[fault.code](fault.low, fault.high)
    case 'more-than-items':
      return words[fault.code](fault.items)
    case 'percent-between-items':
      return words[fault.code](fault.below, fault.above, fault.items)
    case 'too-long':
      return words[fault.code](fault.length, fault.most)
    default:
      return words[fault.code]
  }
}

interface PartProps {
  readonly entry: SpeechEntry
  readonly change: (patch: Partial<SpeechEntry>) => void
}

interface ScoreFieldsProps extends PartProps {
  readonly faultAt: (field: EntryField) => string | undefined
  readonly result: RefObject<HTMLInputElement | null>
}

function ScoreFields({ entry, change, faultAt, result }: ScoreFieldsProps) {
  const { speech } = useMessages()
  const { quiet } = speech.fields
  return (
    <>
      <TextField name="items" entry={entry} change={change} fault={faultAt('items')} numeric />
      <ResultField name="right" entry={entry} change={change} fault={faultAt('right')} result={result} />
      <TextField name="speechLevel" entry={entry} change={change} fault={faultAt('speechLevel')} numeric />
      <TextField
        name="noiseLevel"
        entry={entry}
        change={change}
        fault={faultAt('noiseLevel')}
        placeholder={quiet}
        numeric
      />
    </>
  )
}

interface ResultFieldProps extends PartProps {
  readonly name: 'right' | 'receptionThreshold'
  readonly fault: string | undefined
  readonly result: RefObject<HTMLInputElement | null>
}

/** What was measured: the form begins here, and comes back here for the next test. */
function ResultField({ name, entry, change, fault, result }: ResultFieldProps) {
  const { speech } = useMessages()
  return (
    <Field label={speech.fields[name]} error={fault}>
      {(control) => (
        <input
          {...control}
          ref={result}
          // biome-ignore lint/a11y/noAutofocus: the form opens because somebody asked for it, and begins with the result
          autoFocus
          autoComplete="off"
          value={entry[name]}
          onChange={(event) => change({ [name]: event.currentTarget.value })}
        />
      )}
    </Field>
  )
}

interface TextFieldProps extends PartProps {
  readonly name: 'listName' | 'items' | 'speechLevel' | 'noiseLevel' | 'note'
  readonly fault: string | undefined
  readonly placeholder?: string
  readonly numeric?: boolean
}

function TextField({ name, entry, change, fault, placeholder, numeric = false }: TextFieldProps) {
  const { speech } = useMessages()
  return (
    <Field label={speech.fields[name]} error={fault}>
      {(control) => (
        <input
          {...control}
          placeholder={placeholder}
          inputMode={numeric ? 'decimal' : undefined}
          autoComplete="off"
          value={entry[name]}
          onChange={(event) => change({ [name]: event.currentTarget.value })}
        />
      )}
    </Field>
  )
}

const Ears = SpeechTest.shape.ear
const Materials = SpeechTest.shape.material
const ears: readonly SpeechTest['ear'][] = ['right', 'left', 'both']
const measuredKinds: readonly SpeechEntry['measured'][] = ['score', 'reception']

/** What was measured, ear, condition and material; a letter key chooses in each. */
function Setting({ entry, change }: PartProps) {
  const { speech, words } = useMessages()
  return (
    <>
      <Field label={speech.fields.measured}>
        {(control) => (
          <select
            {...control}
            value={entry.measured}
            onChange={(event) =>
              change({ measured: measuredKinds.find((kind) => kind === event.currentTarget.value) ?? entry.measured })
            }
          >
            {measuredKinds.map((kind) => (
              <option key={kind} value={kind}>
                {speech.measured[kind]}
              </option>
            ))}
          </select>
        )}
      </Field>
      <Field label={speech.fields.ear}>
        {(control) => (
          <select
            {...control}
            value={entry.ear}
            onChange={(event) => change({ ear: Ears.parse(event.currentTarget.value) })}
          >
            {ears.map((ear) => (
              <option key={ear} value={ear}>
                {speech.fields.ears[ear]}
              </option>
            ))}
          </select>
        )}
      </Field>
      <Field label={speech.fields.condition}>
        {(control) => (
          <select
            {...control}
            value={entry.condition}
            onChange={(event) => change({ condition: TestCondition.parse(event.currentTarget.value) })}
          >
            {TestCondition.options.map((condition) => (
              <option key={condition} value={condition}>
                {words.condition[condition]}
              </option>
            ))}
          </select>
        )}
      </Field>
      <Field label={speech.fields.material}>
        {(control) => (
          <select
            {...control}
            value={entry.material}
            onChange={(event) => change({ material: Materials.parse(event.currentTarget.value) })}
          >
            {Materials.options.map((material) => (
              <option key={material} value={material}>
                {speech.fields.materials[material]}
              </option>
            ))}
          </select>
        )}
      </Field>
    </>
  )
}
