'use client'

import { jumpTo } from '@/app/board/jump.ts'
import { Button } from '@/app/components/button.tsx'
import { StateSign, type Tone } from '@/app/components/state-sign.tsx'
import { useMessages } from '@/app/messages/for-own-questions.ts'
import type { Thread } from '@/lib/board/edits/floor.ts'
import { isUnnamed } from '@/lib/board/identity.ts'
import type { Question, QuestionState } from '@/lib/board/records/question.ts'
import type { FloorDesk } from './floor-desk.ts'
import styles from './own-questions.module.css'

interface OwnQuestionsProps {
  readonly threads: readonly Thread[]
  readonly desk: FloorDesk
}

const tones: Record<QuestionState, Tone> = {
  called: 'accent',
  raised: 'quiet',
  answered: 'good',
  deferred: 'caution',
  'set-aside': 'superseded',
}

/** What this person asked, named or not, and what has become of each, in one place. */
export function OwnQuestions({ threads, desk }: OwnQuestionsProps) {
  const { ownQuestions } = useMessages()
  const isMine = ({ author }: Question) => author === desk.me || desk.own.has(author)
  const own = threads.flatMap((thread) =>
    [thread.question, ...thread.folded].filter(isMine).map((question) => ({ question, standing: thread.question })),
  )
  if (own.length === 0) return null
  return (
    <details className={styles.own} open={own.some(({ standing }) => standing.state === 'called') || undefined}>
      <summary className={styles.title}>{ownQuestions.title(own.length)}</summary>
      <ul className={styles.list}>
        {own.map(({ question, standing }) => (
          <li key={question.id} className={styles.entry}>
            <Fate question={question} standing={standing} threads={threads} />
            <Button
              tone="quiet"
              className={styles.words}
              aria-label={ownQuestions.go(question.text)}
              dir="auto"
              onClick={() => jumpTo({ kind: 'questions', id: standing.id })}
            >
              {question.text}
            </Button>
          </li>
        ))}
      </ul>
    </details>
  )
}

interface FateProps {
  readonly question: Question
  readonly standing: Question
  readonly threads: readonly Thread[]
}

function Fate({ question, standing, threads }: FateProps) {
  const { ownQuestions, words } = useMessages()
  const waiting = threads.filter(({ question: { state } }) => state === 'raised')
  const place = waiting.findIndex((thread) => thread.question.id === standing.id) + 1
  const facts = [
    ...(standing.state === 'raised' ? [ownQuestions.waits(place, waiting.length)] : []),
    ...(standing.id === question.id ? [] : [ownQuestions.joined(standing.text)]),
    ...(isUnnamed(question.author) ? [ownQuestions.unnamed] : []),
  ]
  return (
    <p className={styles.fate}>
      <StateSign tone={tones[standing.state]}>{words.questionState[standing.state]}</StateSign>
      {facts.map((fact) => (
        <span key={fact} dir="auto">
          {fact}
        </span>
      ))}
    </p>
  )
}
