'use client'

import { useState } from 'react'
import { Button } from '@/app/components/button.tsx'
import { useMessages } from '@/app/messages/for-votes.ts'
import type { Vote } from '@/lib/board/records/vote.ts'
import type { OwnVoting } from './use-own-ballot.ts'
import styles from './vote-bar.module.css'

const confidences = [50, 60, 70, 80, 90, 100] as const

/** One tap chooses, the second casts: by saying how sure one is where that is asked. */
export function BallotPaper({ vote, voting }: { vote: Vote; voting: OwnVoting }) {
  const { votes } = useMessages()
  const [chosen, setChosen] = useState<number>()
  const { ballot, isCasting } = voting
  const cast = (confidence?: number) => {
    if (chosen === undefined) return
    voting.cast(confidence === undefined ? { option: chosen } : { option: chosen, confidence })
    setChosen(undefined)
  }
  const shown = chosen ?? ballot?.option
  return (
    <>
      <ul className={styles.options}>
        {vote.options.map((option, place) => (
          <li key={option}>
            <button
              type="button"
              className={styles.option}
              aria-pressed={shown === place}
              disabled={isCasting}
              onClick={() => setChosen(place)}
              dir="auto"
            >
              <span className={styles.tick} aria-hidden="true" />
              {option}
            </button>
          </li>
        ))}
      </ul>
      {chosen !== undefined && <CastRow asksConfidence={vote.asksConfidence} onCast={cast} />}
      <p className={styles.fine} role="status">
        {isCasting ? votes.casting : chosen === undefined && ballot !== null && <Said vote={vote} ballot={ballot} />}{' '}
        {votes.secret}
      </p>
    </>
  )
}

function CastRow({ asksConfidence, onCast }: { asksConfidence: boolean; onCast: (confidence?: number) => void }) {
  const { votes } = useMessages()
  if (!asksConfidence)
    return (
      <Button tone="accent" className={styles.cast} onClick={() => onCast()}>
        {votes.cast}
      </Button>
    )
  return (
    <fieldset className={styles.sureness}>
      <legend>{votes.howSure}</legend>
      {confidences.map((confidence) => (
        <Button key={confidence} tone="accent" onClick={() => onCast(confidence)}>
          {votes.sure(confidence)}
        </Button>
      ))}
      <Button onClick={() => onCast()}>{votes.notSaying}</Button>
    </fieldset>
  )
}

function Said({ vote, ballot: { option, confidence } }: { vote: Vote; ballot: NonNullable<OwnVoting['ballot']> }) {
  const { votes } = useMessages()
  const words = vote.options[option] ?? ''
  return <strong>{confidence === undefined ? votes.youVoted(words) : votes.youVotedSure(words, confidence)}.</strong>
}
