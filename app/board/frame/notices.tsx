'use client'

import { useState } from 'react'
import { Button } from '@/app/components/button.tsx'
import { useBoardStatus, useMessages } from '../board-context.tsx'
import { DraftsPanel } from '../later-parts.ts'
import styles from './notices.module.css'

/** What went wrong and needs to be seen wherever one is on the page. */
export function Notices() {
  const { board, shell } = useMessages()
  const { link, refused, dismissRefused, keepsCopy } = useBoardStatus()
  const isAway = link.state === 'offline' || link.state === 'store-away'
  const [draftsOpen, setDraftsOpen] = useState(false)
  return (
    <div className={styles.notices}>
      {isAway && (
        <p className={styles.notice} data-tone="caution" role="status">
          {board.away[link.state][keepsCopy ? 'kept' : 'notKept']}
        </p>
      )}
      {!keepsCopy && !isAway && (
        <p className={styles.notice} data-tone="caution">
          {board.noCopy}
        </p>
      )}
      {refused !== undefined && (
        <section className={styles.notice} data-tone="stop" role="alert" aria-label={board.refusedTitle} tabIndex={-1}>
          <p>
            <strong>{board.refusedTitle}</strong> {refused}
          </p>
          <div className={styles.acts}>
            <Button onClick={() => setDraftsOpen(true)}>{board.showDrafts}</Button>
            <Button onClick={dismissRefused}>{shell.dismiss}</Button>
          </div>
        </section>
      )}
      <DraftsPanel open={draftsOpen} onClose={() => setDraftsOpen(false)} />
    </div>
  )
}
