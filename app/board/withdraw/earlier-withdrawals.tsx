'use client'

import { useBoard } from '@/app/board/board-context.tsx'
import { useMessages } from '@/app/messages/for-withdraw.ts'
import { dayAndClockOf } from '@/app/messages/moments.ts'
import { useAnswer } from '@/app/use-answer.ts'
import { isKindName } from '@/lib/board/records.ts'
import { WithdrawalList } from '@/lib/interchange/api.ts'
import styles from './withdraw-dialog.module.css'

/** What was withdrawn before, word for word; the server tells it to the owner, and nothing to anybody else. */
export function EarlierWithdrawals() {
  const { withdraw, words } = useMessages()
  const { caseId } = useBoard()
  const { answer } = useAnswer(`/api/cases/${encodeURIComponent(caseId)}/withdrawals`, WithdrawalList)
  if (answer.state !== 'ready') return null
  const { withdrawals } = answer.value
  if (withdrawals === null) return null
  return (
    <details className={styles.before}>
      <summary>{withdraw.before}</summary>
      {withdrawals.length === 0 && <p>{withdraw.nothingBefore}</p>}
      <ul className={styles.list}>
        {withdrawals.toReversed().map(({ id, kind, reason, by, at, content }) => (
          <li key={id}>
            <p className={styles.sort}>
              {[isKindName(kind) ? words.kind[kind] : kind, dayAndClockOf(at), withdraw.by(by.name)].join(' · ')}
            </p>
            <p dir="auto">{reason}</p>
            {kind === 'pictures' && (
              <img
                className={styles.picture}
                src={`/api/cases/${encodeURIComponent(caseId)}/withdrawals/${encodeURIComponent(id)}/picture`}
                alt={withdraw.picture}
                loading="lazy"
              />
            )}
            <pre className={styles.content}>{JSON.stringify(JSON.parse(content), null, 2)}</pre>
          </li>
        ))}
      </ul>
    </details>
  )
}
