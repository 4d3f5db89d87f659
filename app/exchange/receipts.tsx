'use client'

import { useMessages } from '@/app/messages/for-exchange.ts'
import { dayAndClockOf } from '@/app/messages/moments.ts'
import { useAnswer } from '@/app/use-answer.ts'
import { ErasureList, type ErasureReceipt } from '@/lib/interchange/api.ts'
import styles from './exchange.module.css'

/** What was erased, when and by whom, for the owner; nothing where nothing was. */
export function Receipts() {
  const { exchange } = useMessages()
  const { answer } = useAnswer('/api/erasures', ErasureList)
  if (answer.state !== 'ready' || answer.value.erasures.length === 0) return null
  return (
    <details>
      <summary>{exchange.receipts}</summary>
      <ul className={styles.parts}>
        {answer.value.erasures.map((receipt) => (
          <li key={receipt.id}>
            <Receipt receipt={receipt} />
          </li>
        ))}
      </ul>
    </details>
  )
}

export function Receipt({ receipt }: { readonly receipt: ErasureReceipt }) {
  const { exchange } = useMessages()
  return (
    <div className={styles.list}>
      <p>{exchange.receipt(receipt, dayAndClockOf(receipt.at))}</p>
      <p className={styles.hint}>{exchange.receiptCounts(receipt)}</p>
    </div>
  )
}
