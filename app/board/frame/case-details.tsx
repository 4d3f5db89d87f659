'use client'

import { type FormEvent, useState } from 'react'
import { Button } from '@/app/components/button.tsx'
import { Dialog } from '@/app/components/dialog.tsx'
import { Field } from '@/app/components/field.tsx'
import { useMessages as useCauseMessages } from '@/app/messages/for-cause.ts'
import { writeSingle } from '@/lib/board/edits/writing.ts'
import { onlyId, textLimits } from '@/lib/board/identity.ts'
import { CaseHeader, CasePhase } from '@/lib/board/records/case-header.ts'
import { Pathology } from '@/lib/devices/pathology.ts'
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
  readonly pathology: Pathology | undefined
  /** separated by commas */
  readonly tags: string
  readonly phase: CasePhase
  readonly consent: 'none' | 'recorded' | 'withdrawn'
  readonly how: string
  /** why a closed case is opened again */
  readonly reopening: string
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
    pathology: header?.pathology,
    tags: header?.tags?.join(', ') ?? '',
    phase: header?.phase ?? 'planning',
    consent: header?.consent?.state ?? 'none',
    how: header?.consent?.how ?? '',
    reopening: '',
  }
}

type Consent = CaseHeader['consent']

function consentOf(form: Form, before: Consent, sign: () => Pick<NonNullable<Consent>, 'by' | 'at'>): Consent {
  if (form.consent === 'none') return undefined
  if (before?.state === form.consent && before.how === form.how) return before
  return { state: form.consent, how: form.how, ...sign() }
}

const tagsIn = (text: string): string[] => [
  ...new Set(
    text
      .split(',')
      .map((tag) => tag.trim())
      .filter((tag) => tag !== ''),
  ),
]

function CaseDetailsForm({ onDone }: { onDone: () => void }) {
  const { board, words, shell } = useMessages()
  const { cause } = useCauseMessages()
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
    const { consent: _, how: __, reopening, ageYears, pathology, tags: ___, ...plain } = form
    const isReopening = header?.phase === 'closed' && form.phase !== 'closed'
    if (isReopening && reopening.trim() === '') return setFaults({ reopening: board.details.reopeningMissing })
    const tags = tagsIn(form.tags)
    const consent = consentOf(form, header?.consent, sign)
    const age = ageYears === '' ? {} : { ageYears: Number(ageYears) }
    const operatedOn = header?.operatedOn === undefined ? {} : { operatedOn: header.operatedOn }
    const reopened = isReopening ? { reason: reopening.trim(), ...sign() } : header?.reopened
    const content = {
      ...plain,
      ...age,
      ...operatedOn,
      ...(consent === undefined ? {} : { consent }),
      ...(pathology === undefined ? {} : { pathology }),
      ...(tags.length === 0 ? {} : { tags }),
      ...(reopened === undefined ? {} : { reopened }),
    }
    const parsed = CaseHeader.safeParse({ ...content, id: onlyId, author: pen.participant, at })
    if (!parsed.success) {
      setFaults(Object.fromEntries(parsed.error.issues.map(({ path, message }) => [path.join('.'), message])))
      return
    }
    beforePosting(`${form.pseudonym}\n${form.summary}\n${form.how}\n${form.tags}\n${reopening}`, () => {
      writeSingle(record, pen, 'header', content)
      onDone()
    })
  }

  const closedHint = header?.phase === 'closed' ? board.details.isClosed : board.details.closing
  const phaseHint = form.phase === 'closed' ? closedHint : undefined
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
      <Field label={cause.pathology} error={faults.pathology}>
        {(control) => (
          <select
            {...control}
            value={form.pathology ?? ''}
            onChange={({ target }) => set({ pathology: Pathology.options.find((each) => each === target.value) })}
          >
            <option value="">{cause.notWrittenDown}</option>
            {Pathology.options.map((each) => (
              <option key={each} value={each}>
                {cause.pathologies[each]}
              </option>
            ))}
          </select>
        )}
      </Field>
      <Field
        label={cause.tags}
        hint={cause.tagsHint}
        error={Object.keys(faults).some((path) => path.startsWith('tags')) ? cause.tagsFault : undefined}
      >
        {(control) => (
          <input
            {...control}
            value={form.tags}
            maxLength={textLimits.short}
            onChange={({ target }) => set({ tags: target.value })}
          />
        )}
      </Field>
      <Field label={board.details.phase} hint={phaseHint} error={faults.phase}>
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
      {header?.phase === 'closed' && form.phase !== 'closed' && (
        <Field label={board.details.reopening} error={faults.reopening}>
          {(control) => (
            <input
              {...control}
              value={form.reopening}
              maxLength={textLimits.short}
              onChange={({ target }) => set({ reopening: target.value })}
            />
          )}
        </Field>
      )}
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
