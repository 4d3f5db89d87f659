'use client'

import { type FormEvent, useId, useState } from 'react'
import { sentenceOfFault } from '@/app/api-client.ts'
import { Button } from '@/app/components/button.tsx'
import { Field } from '@/app/components/field.tsx'
import { useMessages } from '@/app/messages/for-join.ts'
import { nameLength } from '@/lib/interchange/api.ts'
import styles from './join-page.module.css'

interface JoinFormProps {
  /** the role in words */
  readonly role: string
  /** @throws whatever the server answered */
  readonly enter: (who: { name: string; affiliation: string }) => Promise<void>
}

type Faults = Partial<Record<'name' | 'affiliation' | 'agreed' | 'server', string>>

export function JoinForm({ role, enter }: JoinFormProps) {
  const { join } = useMessages()
  const [name, setName] = useState('')
  const [affiliation, setAffiliation] = useState('')
  const [isAgreed, setAgreed] = useState(false)
  const [faults, setFaults] = useState<Faults>({})
  const [isSending, setSending] = useState(false)
  const agreeId = useId()

  const submit = async (event: FormEvent) => {
    event.preventDefault()
    const found: Faults = {
      ...(name.trim() === '' ? { name: join.nameMissing } : {}),
      ...(affiliation.trim() === '' ? { affiliation: join.affiliationMissing } : {}),
      ...(isAgreed ? {} : { agreed: join.agreeMissing }),
    }
    setFaults(found)
    if (Object.keys(found).length > 0) return
    setSending(true)
    try {
      await enter({ name: name.trim(), affiliation: affiliation.trim() })
    } catch (error) {
      setFaults({ server: sentenceOfFault(error) })
      setSending(false)
    }
  }

  return (
    <form className={styles.form} onSubmit={submit} noValidate>
      <Field label={join.name} hint={join.nameHint} error={faults.name}>
        {(control) => (
          <input
            {...control}
            autoComplete="name"
            maxLength={nameLength}
            value={name}
            onChange={({ target }) => setName(target.value)}
          />
        )}
      </Field>
      <Field label={join.affiliation} error={faults.affiliation}>
        {(control) => (
          <input
            {...control}
            autoComplete="organization"
            maxLength={nameLength}
            value={affiliation}
            onChange={({ target }) => setAffiliation(target.value)}
          />
        )}
      </Field>
      <div className={styles.agree}>
        <input
          id={agreeId}
          type="checkbox"
          checked={isAgreed}
          aria-invalid={faults.agreed === undefined ? undefined : true}
          aria-describedby={faults.agreed === undefined ? undefined : `${agreeId}-error`}
          onChange={({ target }) => setAgreed(target.checked)}
        />
        <label htmlFor={agreeId}>{join.agree}</label>
        {faults.agreed !== undefined && (
          <p className={styles.fault} id={`${agreeId}-error`} role="alert">
            {faults.agreed}
          </p>
        )}
      </div>
      {faults.server !== undefined && (
        <p className={styles.fault} role="alert">
          {faults.server}
        </p>
      )}
      <div className={styles.acts}>
        <Button type="submit" tone="accent" disabled={isSending}>
          {join.joinAs(role)}
        </Button>
      </div>
    </form>
  )
}
