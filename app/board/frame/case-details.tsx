'use client'

import { type FormEvent, useState } from 'react'
import { Button } from '@/app/components/button.tsx'
import { Dialog } from '@/app/components/dialog.tsx'
import { Field } from '@/app/components/field.tsx'
import { writeSingle } from '@/lib/board/edits/writing.ts'
import { onlyId, textLimits } from '@/lib/board/identity.ts'
import { CaseHeader, CasePhase } from '@/lib/board/records/case-header.ts'
import { Ear } from '@/lib/units/frequencies.ts'
import { useBoard, useMessages, useSingle } from '../board-context.tsx'
import { usePostGuard } from '../post-guard.tsx'
import styles from './case-details.module.css'

interface PanelProps {
  readonly open: boolean
  readonly onClose: () => void
}

/** Case header as its form has it: all text, until it is parsed. */
interface Form {
  readonly pseudonym: string
  readonly ear: Ear
  readonly ageYears: string
  readonly sex: CaseHeader['sex']
  readonly summary: string
  readonly phase: CasePhase
  readonly consent: 'none' | 'recorded' | 'withdrawn'
  readonly how: string
}

const sexes: readonly CaseHeader['sex'][] = ['female', 'male', 'not-stated']
const consents: readonly Form['consent'][] = ['none', 'recorded', 'withdrawn']

/** Pseudonym, ear, phase and consent of the case, for moderator and team. */
export function CaseDetails({ open, onClose }: PanelProps) {
  const { board } = useMessages()
  return (
    <Dialog open={open} onClose={onClose} title={board.caseDetails}>
      <CaseDetailsForm onDone={onClose} />
    </Dialog>
  )
}

function formOf(header: CaseHeader | undefined, label: string): Form {
  return {
    pseudonym: header?.pseudonym ?? label,
    ear: header?.ear ?? 'right',
    ageYears: header?.ageYears?.toString() ?? '',
    sex: header?.sex ?? 'not-stated',
    summary: header?.summary ?? '',
    phase: header?.phase ?? 'planning',
    consent: header?.consent?.state ?? 'none',
    how: header?.consent?.how ?? '',
  }
}

type Consent = CaseHeader['consent']

function consentOf(form: Form, before: Consent, sign: () => Pick<NonNullable<Consent>, 'by' | 'at'>): Consent {
  if (form.consent === 'none') return undefined
  if (before?.state === form.consent && before.how === form.how) return before
  return { state: form.consent, how: form.how, ...sign() }
}

function CaseDetailsForm({ onDone }: { onDone: () => void }) {
  const { board, words, shell } = useMessages()
  const { record, pen, label } = useBoard()
  const header = useSingle('header')
  const beforePosting = usePostGuard()
  const [form, setForm] = useState(() => formOf(header, label))
  const [faults, setFaults] = useState<Readonly<Record<string, string>>>({})
  const set = (change: Partial<Form>) => setForm((before) => ({ ...before, ...change }))

  const save = (event: FormEvent) => {
    event.preventDefault()
    const at = pen.now().toISOString()
    const sign = () => ({ by: pen.participant, at })
    const { consent: _, how: __, ageYears, ...plain } = form
    const consent = consentOf(form, header?.consent, sign)
    const age = ageYears === '' ? {} : { ageYears: Number(ageYears) }
    const content = { ...plain, ...age, ...(consent === undefined ? {} : { consent }) }
    const parsed = CaseHeader.safeParse({ ...content, id: onlyId, author: pen.participant, at })
    if (!parsed.success) {
      setFaults(Object.fromEntries(parsed.error.issues.map(({ path, message }) => [path.join('.'), message])))
      return
    }
    beforePosting(`${form.pseudonym}\n${form.summary}\n${form.how}`, () => {
      writeSingle(record, pen, 'header', content)
      onDone()
    })
  }

  return (
    <form className={styles.form} onSubmit={save} noValidate>
      <Field label={board.details.pseudonym} hint={board.details.pseudonymHint} error={faults.pseudonym}>
        {(control) => (
          <input
            {...control}
            value={form.pseudonym}
            maxLength={textLimits.short}
            onChange={({ target }) => set({ pseudonym: target.value })}
          />
        )}
      </Field>
      <div className={styles.row}>
        <Field label={board.details.ear} error={faults.ear}>
          {(control) => (
            <select {...control} value={form.ear} onChange={({ target }) => set({ ear: Ear.parse(target.value) })}>
              {Ear.options.map((ear) => (
                <option key={ear} value={ear}>
                  {words.ear[ear]}
                </option>
              ))}
            </select>
          )}
        </Field>
        <Field label={board.details.age} error={faults.ageYears}>
          {(control) => (
            <input
              {...control}
              inputMode="numeric"
              value={form.ageYears}
              onChange={({ target }) => set({ ageYears: target.value.trim() })}
            />
          )}
        </Field>
        <Field label={board.details.sex} error={faults.sex}>
          {(control) => (
            <select
              {...control}
              value={form.sex}
              onChange={({ target }) => set({ sex: sexes.find((sex) => sex === target.value) ?? form.sex })}
            >
              {sexes.map((sex) => (
                <option key={sex} value={sex}>
                  {board.details.sexes[sex]}
                </option>
              ))}
            </select>
          )}
        </Field>
      </div>
      <Field label={board.details.summary} error={faults.summary}>
        {(control) => (
          <textarea
            {...control}
            rows={4}
            value={form.summary}
            maxLength={textLimits.long}
            onChange={({ target }) => set({ summary: target.value })}
          />
        )}
      </Field>
      <Field label={board.details.phase} error={faults.phase}>
        {(control) => (
          <select
            {...control}
            value={form.phase}
            onChange={({ target }) => set({ phase: CasePhase.parse(target.value) })}
          >
            {CasePhase.options.map((phase) => (
              <option key={phase} value={phase}>
                {words.phase[phase]}
              </option>
            ))}
          </select>
        )}
      </Field>
      <Field label={board.details.consent} hint={board.details.consentHint} error={faults.consent}>
        {(control) => (
          <select
            {...control}
            value={form.consent}
            onChange={({ target }) =>
              set({ consent: consents.find((consent) => consent === target.value) ?? form.consent })
            }
          >
            {consents.map((consent) => (
              <option key={consent} value={consent}>
                {board.details.consents[consent]}
              </option>
            ))}
          </select>
        )}
      </Field>
      {form.consent !== 'none' && (
        <Field label={board.details.how} error={faults['consent.how']}>
          {(control) => (
            <input
              {...control}
              value={form.how}
              maxLength={textLimits.short}
              onChange={({ target }) => set({ how: target.value })}
            />
          )}
        </Field>
      )}
      <div className={styles.acts}>
        <Button type="submit" tone="accent">
          {board.details.save}
        </Button>
        <Button onClick={onDone}>{shell.cancel}</Button>
      </div>
    </form>
  )
}
