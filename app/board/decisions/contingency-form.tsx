'use client'

import { type FormEvent, useId, useState } from 'react'
import { Button } from '@/app/components/button.tsx'
import { useKeptText } from '@/app/components/kept-text.ts'
import { LeavableForm } from '@/app/components/leavable-form.tsx'
import { LimitedText } from '@/app/components/limited-text.tsx'
import { useMessages } from '@/app/messages/for-decisions.ts'
import { textLimits } from '@/lib/board/identity.ts'
import type { Contingency, Trigger } from '@/lib/board/records/contingency.ts'
import { triggerSentence } from '@/lib/board/trigger-sentence.ts'
import type { DecisionsDesk } from './decisions-desk.ts'
import forms from './forms.module.css'
import { entryOf, type TriggerEntry, triggerOf } from './trigger-entry.ts'
import { TriggerFields } from './trigger-fields.tsx'
import { WordsTriggerFields } from './words-trigger-fields.tsx'

interface ContingencyFormProps {
  /** the one to change; absent for a new one */
  readonly contingency?: Contingency
  readonly desk: Pick<DecisionsDesk, 'beforePosting'>
  readonly onSave: (trigger: Trigger, plan: string) => void
  readonly onDone: () => void
}

/** "If ... then ...", put together from parts and read aloud while it grows. */
export function ContingencyForm({ contingency, desk, onSave, onDone }: ContingencyFormProps) {
  const { decisions, shell } = useMessages()
  const words = decisions.contingency
  const name = contingency?.id ?? 'new'
  const [entry, setEntry] = useState<TriggerEntry>(() => entryOf(contingency?.trigger))
  const finding = useKeptText(`finding:${name}`, entry.finding)
  const plan = useKeptText(`plan:${name}`, contingency?.plan)
  const [tried, setTried] = useState(false)
  const trigger = triggerOf({ ...entry, finding: finding.text })
  const missing = (text: string) => (tried && text.trim() === '' ? words.missing : undefined)
  const save = (event: FormEvent) => {
    event.preventDefault()
    setTried(true)
    const then = plan.text.trim()
    if (trigger === undefined || then === '' || then.length > textLimits.long) return
    desk.beforePosting(`${finding.text}\n${then}`, () => {
      onSave(trigger, then)
      finding.clear()
      plan.clear()
      onDone()
    })
  }
  return (
    <LeavableForm className={forms.form} onSubmit={save} onLeave={onDone}>
      <KindChoice kind={entry.kind} onChange={(kind) => setEntry({ ...entry, kind })} />
      {entry.kind === 'measured' && (
        <TriggerFields
          entry={entry.measured}
          onChange={(measured) => setEntry({ ...entry, measured })}
          showFaults={tried}
        />
      )}
      {entry.kind === 'words' && (
        <WordsTriggerFields
          entry={entry.words}
          onChange={(onWords) => setEntry({ ...entry, words: onWords })}
          isWrong={trigger === undefined}
        />
      )}
      {entry.kind === 'found' && (
        <LimitedText
          label={words.finding}
          hint={words.findingHint}
          limit={textLimits.short}
          value={finding.text}
          onChange={finding.write}
          error={missing(finding.text)}
        />
      )}
      <LimitedText
        label={words.plan}
        limit={textLimits.long}
        value={plan.text}
        onChange={plan.write}
        error={missing(plan.text)}
      />
      <Preview trigger={trigger} plan={plan.text} />
      <div className={forms.buttons}>
        <Button type="submit" tone="accent">
          {contingency === undefined ? words.save : words.saveChange}
        </Button>
        <Button tone="quiet" onClick={onDone}>
          {shell.cancel}
        </Button>
      </div>
    </LeavableForm>
  )
}

function Preview({ trigger, plan }: { readonly trigger: Trigger | undefined; readonly plan: string }) {
  const { decisions, words: shared } = useMessages()
  const words = decisions.contingency
  const sentence = trigger === undefined ? words.planMissing : triggerSentence(trigger, decisions.trigger)
  return (
    <p className={forms.preview} aria-live="polite" dir="auto">
      <span className={forms.previewTitle}>{shared.labelled(words.preview, '')}</span>
      {words.ifWord} <b>{sentence}</b>, {words.thenWord}{' '}
      <b>{plan.trim().slice(0, textLimits.short) || words.planMissing}</b>
    </p>
  )
}

interface KindChoiceProps {
  readonly kind: Trigger['kind']
  readonly onChange: (kind: Trigger['kind']) => void
}

function KindChoice({ kind, onChange }: KindChoiceProps) {
  const { decisions } = useMessages()
  const name = useId()
  return (
    <fieldset className={forms.kinds}>
      <legend>{decisions.contingency.kind}</legend>
      {(['measured', 'words', 'found'] as const).map((option) => (
        <label key={option} className={forms.kind}>
          <input
            type="radio"
            name={name}
            checked={kind === option}
            // biome-ignore lint/a11y/noAutofocus: the form opens because somebody asked for it
            autoFocus={kind === option}
            onChange={() => onChange(option)}
          />
          {decisions.contingency[option]}
        </label>
      ))}
    </fieldset>
  )
}
