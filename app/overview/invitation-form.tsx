'use client'

import { type FormEvent, useState } from 'react'
import { askApi, sentenceOfFault } from '@/app/api-client.ts'
import { Button } from '@/app/components/button.tsx'
import { Dialog } from '@/app/components/dialog.tsx'
import { Field } from '@/app/components/field.tsx'
import { useSay } from '@/app/components/toast.tsx'
import { useMessages } from '@/app/messages/for-overview.ts'
import { Role } from '@/lib/board/roles.ts'
import { CreatedInvitation, labelLength, type NewInvitation, type ProgrammeDetail } from '@/lib/interchange/api.ts'
import { endOf, type Span, spans } from './expiry.ts'
import styles from './page.module.css'

interface InvitationFormProps {
  readonly open: boolean
  readonly onClose: () => void
  readonly detail: ProgrammeDetail
  readonly onCreated: () => void
}

/** Makes one link for one role; it is shown this once. */
export function InvitationForm({ open, onClose, detail, onCreated }: InvitationFormProps) {
  const { invitations } = useMessages()
  return (
    <Dialog open={open} onClose={onClose} title={invitations.invite}>
      <OpenInvitationForm detail={detail} onClose={onClose} onCreated={onCreated} />
    </Dialog>
  )
}

function OpenInvitationForm({ detail, onClose, onCreated }: Omit<InvitationFormProps, 'open'>) {
  const [link, setLink] = useState<string>()
  if (link !== undefined) return <NewLink link={link} onClose={onClose} />
  const create = async (wanted: NewInvitation) => {
    const { path } = await askApi('/api/invitations', CreatedInvitation, { method: 'POST', body: wanted })
    setLink(`${location.origin}${path}`)
    onCreated()
  }
  return <Wanted detail={detail} create={create} onClose={onClose} />
}

interface WantedProps {
  readonly detail: ProgrammeDetail
  readonly create: (wanted: NewInvitation) => Promise<void>
  readonly onClose: () => void
}

interface WantedForm {
  readonly role: Role
  /** id of a case; empty for the whole programme */
  readonly caseId: string
  readonly label: string
  readonly joinWithin: Span
  readonly accessFor: Span
}

function Wanted({ detail, create, onClose }: WantedProps) {
  const { invitations: text, words, shell } = useMessages()
  const [form, setForm] = useState<WantedForm>({
    role: 'panel',
    caseId: '',
    label: '',
    joinWithin: 'week',
    accessFor: 'unlimited',
  })
  const [fault, setFault] = useState<string>()
  const set = (change: Partial<WantedForm>) => setForm((before) => ({ ...before, ...change }))
  const submit = async (event: FormEvent) => {
    event.preventDefault()
    if (form.label.trim() === '') return setFault(text.labelMissing)
    const nowMs = Date.now()
    try {
      await create({
        role: form.role,
        scope: form.caseId === '' ? { kind: 'programme', id: detail.programme.id } : { kind: 'case', id: form.caseId },
        label: form.label.trim(),
        expiresAt: endOf(form.joinWithin, nowMs),
        accessUntil: endOf(form.accessFor, nowMs),
      })
    } catch (error) {
      setFault(sentenceOfFault(error))
    }
  }
  return (
    <form className={styles.form} onSubmit={submit} noValidate>
      <Field label={text.role} hint={text.roleHint[form.role]}>
        {(control) => (
          <select {...control} value={form.role} onChange={({ target }) => set({ role: Role.parse(target.value) })}>
            {Role.options.map((role) => (
              <option key={role} value={role}>
                {words.role[role]}
              </option>
            ))}
          </select>
        )}
      </Field>
      <Field label={text.forWhat}>
        {(control) => (
          <select {...control} value={form.caseId} onChange={({ target }) => set({ caseId: target.value })}>
            <option value="">{text.wholeProgramme}</option>
            {detail.cases.map(({ id, label }) => (
              <option key={id} value={id}>
                {label}
              </option>
            ))}
          </select>
        )}
      </Field>
      <Field label={text.forWhom} hint={text.forWhomHint} error={fault}>
        {(control) => (
          <input
            {...control}
            value={form.label}
            maxLength={labelLength}
            onChange={({ target }) => {
              set({ label: target.value })
              setFault(undefined)
            }}
          />
        )}
      </Field>
      <SpanField label={text.joinWithin} value={form.joinWithin} onChange={(joinWithin) => set({ joinWithin })} />
      <SpanField label={text.accessFor} value={form.accessFor} onChange={(accessFor) => set({ accessFor })} />
      <div className={styles.acts}>
        <Button type="submit" tone="accent">
          {text.make}
        </Button>
        <Button onClick={onClose}>{shell.cancel}</Button>
      </div>
    </form>
  )
}

interface SpanFieldProps {
  readonly label: string
  readonly value: Span
  readonly onChange: (span: Span) => void
}

function SpanField({ label, value, onChange }: SpanFieldProps) {
  const { invitations } = useMessages()
  return (
    <Field label={label}>
      {(control) => (
        <select
          {...control}
          value={value}
          onChange={({ target }) => onChange(spans.find((span) => span === target.value) ?? value)}
        >
          {spans.map((span) => (
            <option key={span} value={span}>
              {invitations.span[span]}
            </option>
          ))}
        </select>
      )}
    </Field>
  )
}

function NewLink({ link, onClose }: { link: string; onClose: () => void }) {
  const { invitations: text } = useMessages()
  const say = useSay()
  const copy = () =>
    navigator.clipboard.writeText(link).then(
      () => say(text.copied),
      () => say(text.notCopied),
    )
  return (
    <>
      <Field label={text.link} hint={text.linkHint}>
        {(control) => <input {...control} readOnly value={link} onFocus={({ target }) => target.select()} />}
      </Field>
      <div className={styles.acts}>
        <Button tone="accent" onClick={copy}>
          {text.copy}
        </Button>
        <Button onClick={onClose}>{text.done}</Button>
      </div>
    </>
  )
}
