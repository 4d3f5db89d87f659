'use client'

import { StateSign, type Tone } from '@/app/components/state-sign.tsx'
import { type Messages, useMessages } from '@/app/messages/for-follow-up.ts'
import type { Visit } from '@/lib/board/records/visit.ts'
import type { Judged, JudgedLevels, JudgedWords, Verdict, VisitVerdict, Watched } from '@/lib/outcomes/verdict.ts'
import { frequenciesText } from './answer-text.ts'
import { visitName } from './visit-name.ts'
import styles from './watched-contingencies.module.css'

interface VerdictTableProps {
  readonly sentence: string
  readonly over: readonly VisitVerdict[]
  readonly visits: readonly Visit[]
}

const tones: Readonly<Record<Verdict, Tone>> = { met: 'caution', 'not-met': 'good', 'cannot-tell': 'quiet' }

/** What each held visit says to one trigger, one line a visit. */
export function VerdictTable({ sentence, over, visits }: VerdictTableProps) {
  const messages = useMessages()
  if (over.length === 0) return null
  return (
    <ol className={styles.verdicts} aria-label={sentence}>
      {over.map(({ visit, watched }) => {
        const record = visits.find(({ id }) => id === visit)
        return (
          <li
            key={visit}
            className={styles.verdict}
            data-verdict={watched.kind === 'judged' ? watched.verdict : 'absent'}
          >
            <span className={styles.visit}>{record === undefined ? '' : visitName(record, messages)}</span>
            <VerdictText watched={watched} />
          </li>
        )
      })}
    </ol>
  )
}

function VerdictText({ watched }: { readonly watched: Watched }) {
  const messages = useMessages()
  const { watch } = messages.followUp
  if (watched.kind === 'absent') {
    const reason = watch.absent[watched.reason]
    return (
      <span className={styles.fine}>
        {watched.missing.length === 0
          ? reason
          : watch.missingAt(reason, frequenciesText(watched.missing, messages.language))}
      </span>
    )
  }
  const { verdict, probability } = watched
  return (
    <>
      <StateSign tone={tones[verdict]} sign={watch.verdictSign[verdict]}>
        {watch.verdict[verdict]}
      </StateSign>
      <span className={styles.numbers}>
        {changeText(watched, messages)} · {watch.probability(probability.low, probability.high)}
      </span>
    </>
  )
}

const changeText = (watched: Judged, messages: Messages): string =>
  watched.of === 'words' ? wordsText(watched, messages) : levelsText(watched, messages)

/** The score, that which it is held against, and how low chance alone may bring it. */
function wordsText({ score, reference, leastByChance }: JudgedWords, { followUp }: Messages): string {
  const { watch } = followUp
  const compared = watch.scores(scoreText(score), scoreText(reference.score))
  return leastByChance === 0 ? watch.tooFewWords(compared) : watch.chance(compared, leastByChance, score.presented)
}

const scoreText = ({ correct, presented }: JudgedWords['score']): string => `${correct}/${presented}`

/** The change with the 95 % half-width of its test-retest error; one end of it where there was no response. */
function levelsText({ changeDb, sdDb }: JudgedLevels, { followUp }: Messages): string {
  const { watch, signed, plain } = followUp
  if (changeDb.high === Number.POSITIVE_INFINITY) return watch.atLeast(signed(changeDb.low))
  if (changeDb.low === Number.NEGATIVE_INFINITY) return watch.atMost(signed(changeDb.high))
  return watch.change(signed(changeDb.low), plain(chanceFactor * sdDb))
}

/** Standard normal quantile of 0.975. */
const chanceFactor = 1.959963984540054
