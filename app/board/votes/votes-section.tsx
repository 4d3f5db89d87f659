'use client'

import { useMemo, useState } from 'react'
import { useMay, useTable } from '@/app/board/board-context.tsx'
import { usePutOnScreen, usePutOnScreenKey } from '@/app/board/put-on-screen.ts'
import { Button } from '@/app/components/button.tsx'
import { Moment } from '@/app/components/moment.tsx'
import { useMessages } from '@/app/messages/for-votes.ts'
import type { RecordId } from '@/lib/board/identity.ts'
import type { Showing } from '@/lib/board/records/main-screen.ts'
import type { Vote, VoteResult } from '@/lib/board/records/vote.ts'
import { plainText } from '@/lib/board/rich-text.ts'
import { NewVoteForm } from './new-vote-form.tsx'
import styles from './votes-section.module.css'

/** What was decided by vote, the newest first, and where a moderator opens another. */
export default function VotesSection() {
  const { votes } = useMessages()
  const all = useTable('votes')
  const mayOpen = useMay().mayCreate('votes')
  const [isWriting, setWriting] = useState(false)
  const closed = all.flatMap((vote) => (vote.result === undefined ? [] : { vote, result: vote.result }))
  const newestFirst = closed.sort((a, b) => b.result.at.localeCompare(a.result.at))
  if (newestFirst.length === 0 && !mayOpen) return null
  return (
    <section className={styles.section}>
      <h3 className={styles.title}>{votes.title}</h3>
      <ul className={styles.list}>
        {newestFirst.map(({ vote, result }) => (
          <Closed key={vote.id} vote={vote} result={result} />
        ))}
      </ul>
      {mayOpen && !isWriting && (
        <Button className={styles.open} onClick={() => setWriting(true)}>
          {votes.open}
        </Button>
      )}
      {isWriting && <NewVoteForm onDone={() => setWriting(false)} />}
    </section>
  )
}

function Closed({ vote, result }: { vote: Vote; result: VoteResult }) {
  const { votes } = useMessages()
  const showing = useShowing(vote.id)
  const put = usePutOnScreen()
  const key = usePutOnScreenKey(showing)
  const about = useAbout(vote)
  const most = Math.max(1, ...result.options.map((option) => option.votes))
  return (
    <li className={styles.card} aria-label={votes.resultOf(vote.question)}>
      <p className={styles.question} dir="auto">
        {vote.question}
      </p>
      {about !== '' && <p className={styles.fine}>{votes.aboutNote(about)}</p>}
      <dl className={styles.counts}>
        {vote.options.map((option, place) => {
          const counted = result.options[place]
          if (counted === undefined) return null
          const { confidence } = counted
          return (
            <div key={option} className={styles.count}>
              <dt dir="auto">{option}</dt>
              <dd>
                <progress className={styles.meter} max={most} value={counted.votes} aria-hidden="true" />
                <span>{votes.votes(counted.votes)}</span>
                {confidence !== undefined && (
                  <span className={styles.fine}>
                    {votes.confidence(confidence.low, confidence.median, confidence.high)}
                  </span>
                )}
              </dd>
            </div>
          )
        })}
      </dl>
      <p className={styles.fine}>
        {result.confidence !== undefined &&
          `${votes.allConfidence(result.confidence.low, result.confidence.median, result.confidence.high)}. `}
        {votes.notVoted(result.notVoted)} · <Moment at={result.at} />
      </p>
      {put !== undefined && (
        <Button tone="quiet" className={styles.open} {...key} onClick={() => put(showing)}>
          {votes.screen} <kbd>s</kbd>
        </Button>
      )}
    </li>
  )
}

const useShowing = (id: RecordId): Showing => useMemo(() => ({ kind: 'vote', id }), [id])

const aboutLength = 120

/** The first words of the decision that a vote was about. */
function useAbout({ note }: Vote): string {
  const notes = useTable('notes')
  const about = notes.find(({ id }) => id === note)
  return about === undefined ? '' : plainText(about.body).slice(0, aboutLength).trim()
}
