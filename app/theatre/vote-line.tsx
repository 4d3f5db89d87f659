'use client'

import { useMessages } from '@/app/messages/for-screens.ts'
import type { Vote } from '@/lib/board/records/vote.ts'
import styles from './vote-line.module.css'

/** How long a result stays: then the room belongs to questions and contingencies again. */
const resultMs = 10 * 60_000

export const isStillShown = ({ result }: Vote, now: Date): boolean =>
  result === undefined || now.getTime() - Date.parse(result.at) <= resultMs

/** The vote that is under way, or what one just closed came to, in as few words as will do. */
export function VoteLine({ vote }: { vote: Vote }) {
  const { votes, words } = useMessages()
  const { result } = vote
  return (
    <section className={styles.vote}>
      <h2>{result === undefined ? votes.inTheatre.open : votes.inTheatre.closed}</h2>
      <p className={styles.question}>{vote.question}</p>
      {result !== undefined && (
        <p className={styles.counts}>
          {vote.options
            .map((option, place) => words.labelled(option, String(result.options[place]?.votes ?? 0)))
            .join(' · ')}
        </p>
      )}
    </section>
  )
}
