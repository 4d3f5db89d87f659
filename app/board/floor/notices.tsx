'use client'

import { useState } from 'react'
import { Button } from '@/app/components/button.tsx'
import { useMessages } from '@/app/messages/use-messages.ts'
import type { Thread } from '@/lib/board/edits/floor.ts'
import styles from './notices.module.css'
import { noticeKey, noticesFor } from './queue.ts'

interface NoticesProps {
  readonly threads: readonly Thread[]
  readonly me: string
  readonly onGo: (id: string) => void
}

/** Tells somebody, without getting in the way, that their question is called or answered. */
export function Notices({ threads, me, onGo }: NoticesProps) {
  const { floor } = useMessages()
  const [seen, setSeen] = useState(() => new Set(answeredBefore(threads)))
  const notices = noticesFor(threads, me, seen)
  const see = (key: string) => setSeen((before) => new Set(before).add(key))
  return (
    <div className={styles.notices} role="status">
      {notices.map(({ key, id, state, text }) => (
        <div key={key} className={styles.notice} data-state={state}>
          <p className={styles.title}>
            <span aria-hidden="true">{state === 'called' ? '◆' : '✓'}</span> {floor.notice[state]}
          </p>
          <p className={styles.text} dir="auto">
            {text}
          </p>
          <Button
            tone="quiet"
            onClick={() => {
              see(key)
              onGo(id)
            }}
          >
            {floor.notice.go}
          </Button>
          <Button tone="quiet" onClick={() => see(key)}>
            {floor.notice.dismiss}
          </Button>
        </div>
      ))}
    </div>
  )
}

/** What was answered before this page opened is no news. */
const answeredBefore = (threads: readonly Thread[]): string[] =>
  threads
    .filter(({ question }) => question.state === 'answered')
    .map(({ question }) => noticeKey(question.id, question.state))
