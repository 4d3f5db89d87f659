'use client'

import { type FormEvent, type ReactNode, useState } from 'react'
import { sentenceOfFault } from '@/app/api-client.ts'
import { Button } from '@/app/components/button.tsx'
import { Dialog } from '@/app/components/dialog.tsx'
import { Field } from '@/app/components/field.tsx'
import { useMessages } from '@/app/messages/for-overview.ts'
import { looksIdentifying } from '@/lib/board/identifying-text.ts'
import { labelLength } from '@/lib/interchange/api.ts'
import styles from './page.module.css'

interface LabelFormProps {
  readonly open: boolean
  readonly onClose: () => void
  readonly title: string
  readonly label: string
  readonly hint: ReactNode
  /** @throws whatever the server answered */
  readonly create: (label: string) => Promise<void>
}

/** Asks for the one line that a new programme or case begins with. */
export function LabelForm({ open, onClose, title, ...form }: LabelFormProps) {
  return (
    <Dialog open={open} onClose={onClose} title={title}>
      <OpenLabelForm onClose={onClose} {...form} />
    </Dialog>
  )
}

function OpenLabelForm({ onClose, label, hint, create }: Omit<LabelFormProps, 'open' | 'title'>) {
  const { overview, shell } = useMessages()
  const [text, setText] = useState('')
  const [fault, setFault] = useState<string>()
  const [isSending, setSending] = useState(false)
  const submit = async (event: FormEvent) => {
    event.preventDefault()
    if (text.trim() === '') return setFault(overview.labelMissing)
    setSending(true)
    try {
      await create(text.trim())
      onClose()
    } catch (error) {
      setFault(sentenceOfFault(error))
    } finally {
      setSending(false)
    }
  }
  const warning = looksIdentifying(text) ? overview.labelIdentifies : undefined
  return (
    <form className={styles.form} onSubmit={submit} noValidate>
      <Field label={label} hint={hint} error={fault ?? warning}>
        {(control) => (
          <input
            {...control}
            value={text}
            maxLength={labelLength}
            onChange={({ target }) => {
              setText(target.value)
              setFault(undefined)
            }}
          />
        )}
      </Field>
      <div className={styles.acts}>
        <Button type="submit" tone="accent" disabled={isSending}>
          {overview.create}
        </Button>
        <Button onClick={onClose}>{shell.cancel}</Button>
      </div>
    </form>
  )
}
