'use client'

import { useMessages } from '@/app/messages/for-screens.ts'
import type { Vote } from '@/lib/board/records/vote.ts'
import { FittedText } from './fitted-text.tsx'
import { ScreenCard } from './screen-card.tsx'
import { useWords } from './use-words.ts'
import styles from './vote-view.module.css'

/** A vote: its question and options while it is open, and what was counted once it is closed. */
export function VoteView({ vote }: { vote: Vote }) {
  const { votes, screens } = useMessages()
  const { moment } = useWords()
  const { result } = vote
  const most = Math.max(1, ...(result?.options ?? []).map((option) => option.votes))
  return (
    <ScreenCard
      kind={votes.kind}
      aside={result === undefined ? votes.stillOpen : votes.closedAt(moment(result.at))}
      foot={result !== undefined && <Foot result={result} />}
    >
      <div className={styles.body}>
        <div className={styles.question}>
          <FittedText largest="title" continues={screens.screen.continues}>
            {vote.question}
          </FittedText>
        </div>
        <ul className={styles.options}>
          {vote.options.map((option, place) => {
            const counted = result?.options[place]
            return (
              <li key={option} className={styles.option} data-leads={counted !== undefined && counted.votes === most}>
                <span className={styles.words} dir="auto">
                  {option}
                </span>
                {counted !== undefined && (
                  <>
                    <progress className={styles.bar} max={most} value={counted.votes} aria-hidden="true" />
                    <strong className={styles.votes}>{counted.votes}</strong>
                    <span className={styles.sure}>
                      {counted.confidence !== undefined && votes.sure(counted.confidence.median)}
                    </span>
                  </>
                )}
              </li>
            )
          })}
        </ul>
      </div>
    </ScreenCard>
  )
}

function Foot({ result: { confidence, notVoted } }: { result: NonNullable<Vote['result']> }) {
  const { votes } = useMessages()
  const sureness =
    confidence === undefined ? [] : [votes.allConfidence(confidence.low, confidence.median, confidence.high)]
  return <p>{[...sureness, votes.notVoted(notVoted)].join(' · ')}</p>
}
