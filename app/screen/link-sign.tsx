'use client'

import { useMessages } from '@/app/messages/for-screens.ts'
import type { LinkLoss } from './link-loss.ts'
import styles from './link-sign.module.css'
import { useWords } from './use-words.ts'

/** Small and unmistakable, and nothing at all while the link stands. */
export function LinkSign({ loss }: { loss: LinkLoss }) {
  const { screen } = useMessages().screens
  const { clock } = useWords()
  if (loss.state === 'live') return null
  return (
    <p className={styles.sign} data-link={loss.state} role="status">
      {loss.state !== 'linking' && <span aria-hidden="true">✕ </span>}
      {loss.state === 'lost' ? screen.lost[loss.why](clock(loss.since)) : screen.notLinked[loss.state]}
    </p>
  )
}
