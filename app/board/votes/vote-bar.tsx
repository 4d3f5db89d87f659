'use client'

import { useMay, useTable } from '@/app/board/board-context.tsx'
import { useMessages } from '@/app/messages/for-votes.ts'
import type { Vote } from '@/lib/board/records/vote.ts'
import { BallotPaper } from './ballot-paper.tsx'
import { useOwnBallot } from './use-own-ballot.ts'
import styles from './vote-bar.module.css'
import { VoteDesk } from './vote-desk.tsx'

/** Every open vote above the panes: whoever has a vote casts it here in two taps, whoever opened it closes it. */
export default function VoteBar() {
  return (
    <>
      {useTable('votes')
        .filter(({ result }) => result === undefined)
        .map((vote) => (
          <OpenVote key={vote.id} vote={vote} />
        ))}
    </>
  )
}

function OpenVote({ vote }: { vote: Vote }) {
  const { votes } = useMessages()
  const may = useMay()
  const mayVote = may.mayVote()
  const runsIt = may.mayCreate('votes')
  return (
    <section className={styles.bar} aria-label={votes.barTitle(vote.question)}>
      <h2 className={styles.question} dir="auto">
        {vote.question}
      </h2>
      {mayVote || runsIt ? <Voting vote={vote} runsIt={runsIt} /> : <p className={styles.fine}>{votes.watching}</p>}
    </section>
  )
}

function Voting({ vote, runsIt }: { vote: Vote; runsIt: boolean }) {
  const own = useOwnBallot(vote.id, runsIt)
  return (
    <>
      {runsIt ? <VoteDesk vote={vote} turnout={own.turnout} /> : <BallotPaper vote={vote} voting={own} />}
      {own.fault !== undefined && (
        <p className={styles.fault} role="alert">
          {own.fault}
        </p>
      )}
    </>
  )
}
