'use client'

import { useContext, useMemo, useState } from 'react'
import { useBoard, useTable } from '@/app/board/board-context.tsx'
import { jumpTo } from '@/app/board/jump.ts'
import { UnnamedContext } from '@/app/board/unnamed-authors.ts'
import { Button } from '@/app/components/button.tsx'
import { useMessages } from '@/app/messages/for-own-questions.ts'
import { noticesFor, openOwn } from './own-notices.ts'
import styles from './own-question-notices.module.css'

const signs = { called: '◆', answered: '✓', joined: '→' } as const

/** Tells somebody, wherever on the board they are and without getting in the way, that their question is called or answered. */
export function OwnQuestionNotices() {
  const { ownQuestions } = useMessages()
  const { me } = useBoard()
  const questions = useTable('questions')
  const { own } = useContext(UnnamedContext)
  const mine = useMemo(() => new Set([me.participant, ...own]), [me.participant, own])
  const witnessed = useWitnessed(openOwn(questions, mine))
  const [seen, setSeen] = useState<ReadonlySet<string>>(new Set())
  const see = (key: string) => setSeen((before) => new Set(before).add(key))
  const notices = noticesFor(questions, mine, witnessed).filter(({ key }) => !seen.has(key))
  return (
    <div className={styles.notices} role="status">
      {notices.map(({ key, id, state, text }) => (
        <div key={key} className={styles.notice} data-state={state}>
          <p className={styles.title}>
            <span aria-hidden="true">{signs[state]}</span> {ownQuestions.notice[state]}
          </p>
          <p className={styles.text} dir="auto">
            {text}
          </p>
          <Button
            tone="quiet"
            onClick={() => {
              see(key)
              jumpTo({ kind: 'questions', id })
            }}
          >
            {ownQuestions.notice.go}
          </Button>
          <Button tone="quiet" onClick={() => see(key)}>
            {ownQuestions.notice.dismiss}
          </Button>
        </div>
      ))}
    </div>
  )
}

/** All ids that were ever among these since the page opened. */
function useWitnessed(ids: readonly string[]): ReadonlySet<string> {
  const [witnessed, setWitnessed] = useState<ReadonlySet<string>>(new Set())
  const isNew = ids.some((id) => !witnessed.has(id))
  if (isNew) setWitnessed(new Set([...witnessed, ...ids]))
  return witnessed
}
