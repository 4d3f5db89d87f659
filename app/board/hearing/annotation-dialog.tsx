'use client'

import { useState } from 'react'
import { usePostGuard } from '@/app/board/post-guard.tsx'
import { Button } from '@/app/components/button.tsx'
import { Dialog } from '@/app/components/dialog.tsx'
import { Field } from '@/app/components/field.tsx'
import { useMessages } from '@/app/messages/use-messages.ts'
import { textLimits } from '@/lib/board/identity.ts'
import { ChartPlace } from '@/lib/board/records/annotation.ts'
import { audiometricFrequenciesHz, Ear } from '@/lib/units/frequencies.ts'
import { DbHl } from '@/lib/units/levels.ts'
import styles from './dialogs.module.css'

interface AnnotationDialogProps {
  readonly place: ChartPlace
  readonly text: string
  readonly mayPlace: boolean
  readonly mayWrite: boolean
  readonly onClose: () => void
  readonly onSubmit: (place: ChartPlace, text: string) => void
}

interface Draft {
  readonly kind: ChartPlace['kind']
  readonly ear: Ear
  readonly frequency: number
  readonly level: string
  readonly to: number
  readonly text: string
}

/** Place and text of a pin or bracket; the same for the keyboard and after a press on the chart. */
export function AnnotationDialog({ place, text, mayPlace, mayWrite, onClose, onSubmit }: AnnotationDialogProps) {
  const { hearing, shell } = useMessages()
  const beforePosting = usePostGuard()
  const [draft, setDraft] = useState<Draft>(() => draftOf(place, text))
  const [tried, setTried] = useState(false)
  const change = (patch: Partial<Draft>) => setDraft((before) => ({ ...before, ...patch }))
  const problems = useProblems(draft)
  const submit = () => {
    setTried(true)
    const placed = ChartPlace.safeParse(placeOf(draft))
    if (!placed.success || problems.text !== undefined) return
    beforePosting(draft.text, () => onSubmit(placed.data, draft.text.trim()))
  }
  return (
    <Dialog open onClose={onClose} title={hearing.notes.dialogTitle}>
      <form
        className={styles.form}
        noValidate
        onSubmit={(event) => {
          event.preventDefault()
          submit()
        }}
      >
        <fieldset disabled={!mayPlace} className={styles.form}>
          <PlaceFields draft={draft} change={change} problems={tried ? problems : {}} />
        </fieldset>
        <Field label={hearing.notes.text} error={tried ? problems.text : undefined}>
          {(control) => (
            <textarea
              {...control}
              rows={3}
              readOnly={!mayWrite}
              value={draft.text}
              onChange={(event) => change({ text: event.currentTarget.value })}
            />
          )}
        </Field>
        <div className={styles.buttons}>
          <Button type="submit" tone="accent">
            {hearing.notes.submit}
          </Button>
          <Button onClick={onClose}>{shell.cancel}</Button>
        </div>
      </form>
    </Dialog>
  )
}

interface PlaceFieldsProps {
  readonly draft: Draft
  readonly change: (patch: Partial<Draft>) => void
  readonly problems: Partial<ReturnType<typeof useProblems>>
}

function PlaceFields({ draft, change, problems }: PlaceFieldsProps) {
  const { hearing, words } = useMessages()
  const band = draft.kind === 'band'
  return (
    <div className={styles.pair}>
      <Field label={hearing.notes.kind}>
        {(control) => (
          <select
            {...control}
            value={draft.kind}
            onChange={(event) => change({ kind: event.currentTarget.value === 'band' ? 'band' : 'pin' })}
          >
            <option value="pin">{hearing.notes.kinds.pin}</option>
            <option value="band">{hearing.notes.kinds.band}</option>
          </select>
        )}
      </Field>
      <Field label={hearing.newTest.ear}>
        {(control) => (
          <select
            {...control}
            value={draft.ear}
            onChange={(event) => change({ ear: Ear.parse(event.currentTarget.value) })}
          >
            {Ear.options.map((ear) => (
              <option key={ear} value={ear}>
                {words.ear[ear]}
              </option>
            ))}
          </select>
        )}
      </Field>
      <FrequencyField
        label={band ? hearing.notes.from : hearing.notes.frequency}
        value={draft.frequency}
        onChange={(frequency) => change({ frequency })}
      />
      {band ? (
        <FrequencyField
          label={hearing.notes.to}
          value={draft.to}
          error={problems.to}
          onChange={(to) => change({ to })}
        />
      ) : (
        <Field label={hearing.notes.level} error={problems.level}>
          {(control) => (
            <input
              {...control}
              type="number"
              step="5"
              min="-20"
              max="130"
              value={draft.level}
              onChange={(event) => change({ level: event.currentTarget.value })}
            />
          )}
        </Field>
      )}
    </div>
  )
}

interface FrequencyFieldProps {
  readonly label: string
  readonly value: number
  readonly error?: string | undefined
  readonly onChange: (frequency: number) => void
}

function FrequencyField({ label, value, error, onChange }: FrequencyFieldProps) {
  return (
    <Field label={label} error={error}>
      {(control) => (
        <select {...control} value={value} onChange={(event) => onChange(Number(event.currentTarget.value))}>
          {audiometricFrequenciesHz.map((frequency) => (
            <option key={frequency} value={frequency}>
              {frequency}
            </option>
          ))}
        </select>
      )}
    </Field>
  )
}

function useProblems(draft: Draft) {
  const { hearing } = useMessages()
  const { length } = draft.text.trim()
  const level = draft.level.trim() === '' ? Number.NaN : Number(draft.level)
  return {
    level: draft.kind === 'band' || DbHl.safeParse(level).success ? undefined : hearing.notes.levelRange,
    to: draft.kind === 'pin' || draft.frequency < draft.to ? undefined : hearing.notes.bandOrder,
    text:
      length === 0
        ? hearing.notes.textMissing
        : length > textLimits.short
          ? hearing.notes.textTooLong(length, textLimits.short)
          : undefined,
  }
}

function draftOf(place: ChartPlace, text: string): Draft {
  const pin = place.kind === 'pin'
  return {
    kind: place.kind,
    ear: place.ear,
    frequency: pin ? place.frequency : place.from,
    level: pin ? String(place.level) : '50',
    to: pin ? 8000 : place.to,
    text,
  }
}

function placeOf({ kind, ear, frequency, level, to }: Draft): unknown {
  return kind === 'pin'
    ? { kind, ear, frequency, level: level.trim() === '' ? undefined : Number(level) }
    : { kind, ear, from: frequency, to }
}
