'use client'

import { useState } from 'react'
import { sentenceOfFault } from '@/app/api-client.ts'
import { useBoard } from '@/app/board/board-context.tsx'
import { Button } from '@/app/components/button.tsx'
import { useSay } from '@/app/components/toast.tsx'
import { useMessages } from '@/app/messages/for-votes.ts'
import { withdrawVote } from '@/lib/board/edits/votes.ts'
import type { Vote } from '@/lib/board/records/vote.ts'
import { closeVote } from './vote-api.ts'
import styles from './vote-bar.module.css'

/** How many have voted, never how, and the two ends of a vote. */
export function VoteDesk({ vote, turnout }: { vote: Vote; turnout: number | null }) {
  const { votes, shell } = useMessages()
  const { caseId, record } = useBoard()
  const say = useSay()
  const [isClosing, setClosing] = useState(false)
  const [fault, setFault] = useState<string>()
  const [asksAgain, setAsksAgain] = useState(false)
  const close = () => {
    setClosing(true)
    setFault(undefined)
    closeVote(caseId, vote.id)
      .then(
        () => say(votes.closed),
        (error: unknown) => setFault(sentenceOfFault(error)),
      )
      .finally(() => setClosing(false))
  }
  return (
    <>
      <ul className={styles.listed}>
        {vote.options.map((option) => (
          <li key={option} dir="auto">
            {option}
          </li>
        ))}
      </ul>
      {turnout !== null && <p role="status">{votes.turnout(turnout)}</p>}
      <div className={styles.acts}>
        <Button tone="accent" disabled={isClosing} onClick={close}>
          {votes.close}
        </Button>
        {asksAgain ? (
          <>
            <Button tone="stop" onClick={() => withdrawVote(record, vote.id)}>
              {votes.withdrawReally}
            </Button>
            <Button onClick={() => setAsksAgain(false)}>{shell.cancel}</Button>
          </>
        ) : (
          <Button tone="quiet" onClick={() => setAsksAgain(true)}>
            {votes.withdraw}
          </Button>
        )}
      </div>
      {fault !== undefined && (
        <p className={styles.fault} role="alert">
          {fault}
        </p>
      )}
    </>
  )
}
