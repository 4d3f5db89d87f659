'use client'

import { type FormEvent, useState } from 'react'
import { askApi, sentenceOfFault } from '@/app/api-client.ts'
import { Button } from '@/app/components/button.tsx'
import { Dialog } from '@/app/components/dialog.tsx'
import { Field } from '@/app/components/field.tsx'
import { useMessages } from '@/app/messages/for-exchange.ts'
import { type CaseSummary, type EraseCase, ErasureReceipt } from '@/lib/interchange/api.ts'
import styles from './exchange.module.css'
import { forgetCase } from './forget-case.ts'
import { Receipt } from './receipts.tsx'

type CaseToErase = Pick<CaseSummary, 'id' | 'label'>

interface EraseCaseButtonProps {
  readonly summary: CaseToErase
  readonly onWish: () => void
}

export function EraseCaseButton({ summary, onWish }: EraseCaseButtonProps) {
  const { exchange } = useMessages()
  return (
    <Button tone="quiet" aria-label={exchange.eraseCase(summary.label)} onClick={onWish}>
      {exchange.erase}
    </Button>
  )
}

interface EraseCaseDialogProps {
  /** absent: nobody wants to erase anything */
  readonly summary: CaseToErase | undefined
  readonly onClose: () => void
}

/**
 * Erasing one case for good, for the owner: its name is typed first, and a receipt stays. It belongs beside the list, not into
 * a row: the row goes away with its case, and the receipt has to be read.
 */
export function EraseCaseDialog({ summary, onClose }: EraseCaseDialogProps) {
  const { exchange } = useMessages()
  return (
    <Dialog open={summary !== undefined} onClose={onClose} title={exchange.eraseCase(summary?.label ?? '')}>
      {summary !== undefined && <Erasure summary={summary} onClose={onClose} />}
    </Dialog>
  )
}

function Erasure({ summary, onClose }: { readonly summary: CaseToErase; readonly onClose: () => void }) {
  const { exchange, shell } = useMessages()
  const [receipt, setReceipt] = useState<ErasureReceipt>()
  if (receipt === undefined) return <Erasing summary={summary} onErased={setReceipt} onCancel={onClose} />
  return (
    <div className={styles.parts}>
      <div className={styles.parts} role="status">
        <p>{exchange.erased}</p>
        <Receipt receipt={receipt} />
      </div>
      <div className={styles.acts}>
        <Button autoFocus onClick={onClose}>
          {shell.close}
        </Button>
      </div>
    </div>
  )
}

interface ErasingProps {
  readonly summary: CaseToErase
  readonly onErased: (receipt: ErasureReceipt) => void
  readonly onCancel: () => void
}

function Erasing({ summary: { id, label }, onErased, onCancel }: ErasingProps) {
  const { exchange, shell } = useMessages()
  const [typed, setTyped] = useState('')
  const [fault, setFault] = useState<string>()
  const [isWorking, setWorking] = useState(false)
  const erase = async (event: FormEvent) => {
    event.preventDefault()
    if (typed.trim() !== label.trim()) return setFault(exchange.eraseMismatch(label))
    setWorking(true)
    try {
      const body: EraseCase = { label: typed }
      const receipt = await askApi(`/api/cases/${encodeURIComponent(id)}/erase`, ErasureReceipt, {
        method: 'POST',
        body,
      })
      await forgetCase(id)
      onErased(receipt)
    } catch (error) {
      setFault(sentenceOfFault(error))
      setWorking(false)
    }
  }
  return (
    <form className={styles.parts} onSubmit={erase} noValidate>
      <p>{exchange.eraseWhat}</p>
      <p>{exchange.eraseFirst}</p>
      <Field label={exchange.eraseTyped(label)} error={fault}>
        {(control) => (
          <input
            {...control}
            autoComplete="off"
            value={typed}
            onChange={({ target }) => {
              setTyped(target.value)
              setFault(undefined)
            }}
          />
        )}
      </Field>
      <div className={styles.acts}>
        <Button type="submit" tone="stop" disabled={isWorking}>
          {isWorking ? exchange.erasing : exchange.eraseNow}
        </Button>
        <Button onClick={onCancel}>{shell.cancel}</Button>
      </div>
    </form>
  )
}
