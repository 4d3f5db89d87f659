'use client'

import { optionText } from '@/app/board/plan/option-text.ts'
import { type Messages, useMessages } from '@/app/messages/for-screens.ts'
import type { Thread } from '@/lib/board/edits/floor.ts'
import type { Question } from '@/lib/board/records/question.ts'
import { plainText } from '@/lib/board/rich-text.ts'
import { FittedText } from './fitted-text.tsx'
import { PersonLine } from './person-line.tsx'
import { PlaceOnChart } from './place-on-chart.tsx'
import styles from './question-view.module.css'
import { ScreenCard } from './screen-card.tsx'
import type { AnchorOnScreen } from './screen-content.ts'

interface QuestionViewProps {
  readonly thread: Thread
  readonly anchor?: AnchorOnScreen | undefined
}

/** A question as the room reads it: the words, who asks, and what it is about. */
export function QuestionView({ thread, anchor }: QuestionViewProps) {
  const { question } = thread
  const { screen } = useMessages().screens
  return (
    <ScreenCard
      kind={screen.question}
      aside={<StateOfQuestion question={question} />}
      foot={<AskedBy thread={thread} />}
    >
      <div className={styles.body} data-about={anchor?.kind ?? 'nothing'}>
        <div className={styles.words}>
          <FittedText continues={screen.continues}>{question.text}</FittedText>
        </div>
        {question.answer !== undefined && <AnswerGiven answer={question.answer} />}
        {anchor !== undefined && <AboutWhat anchor={anchor} />}
      </div>
    </ScreenCard>
  )
}

function StateOfQuestion({ question }: { question: Question }) {
  const { screen } = useMessages().screens
  switch (question.state) {
    case 'raised':
    case 'called':
      return null
    case 'deferred':
      return question.deferredTo ? screen.deferredTo(question.deferredTo) : screen.questionState.deferred
    default:
      return screen.questionState[question.state]
  }
}

function AnswerGiven({ answer }: { answer: NonNullable<Question['answer']> }) {
  const { screen } = useMessages().screens
  return (
    <div className={styles.answer}>
      <h2 className={styles.label}>
        {screen.answer}
        {answer.saidBy !== undefined && <span className={styles.quiet}> {screen.saidBy(answer.saidBy)}</span>}
      </h2>
      <div className={styles.answerWords}>
        <FittedText largest="title" continues={screen.continues}>
          {answer.text}
        </FittedText>
      </div>
    </div>
  )
}

function AboutWhat({ anchor }: { anchor: AnchorOnScreen }) {
  const messages = useMessages()
  const { screen } = messages.screens
  return (
    <aside className={styles.about}>
      {anchor.kind === 'chart' ? (
        <PlaceOnChart place={anchor.place} tests={anchor.tests} />
      ) : (
        <>
          <h2 className={styles.label}>{screen.about[anchor.kind]}</h2>
          <div className={styles.cited}>
            <FittedText largest="lead" continues={screen.continues}>
              {wordsOf(anchor, messages)}
            </FittedText>
          </div>
        </>
      )}
    </aside>
  )
}

function wordsOf(anchor: Exclude<AnchorOnScreen, { kind: 'chart' }>, { words }: Messages): string {
  switch (anchor.kind) {
    case 'note':
      return plainText(anchor.note.body)
    case 'step':
      return `${anchor.number}. ${anchor.step.title}`
    case 'option':
      return optionText(anchor.option, undefined, words)
    case 'scenario':
      return anchor.scenario.title
    default:
      return anchor satisfies never
  }
}

function AskedBy({ thread: { question, folded, backers } }: { thread: Thread }) {
  const { screen } = useMessages().screens
  const others = new Set(folded.map(({ author }) => author).filter((author) => author !== question.author)).size
  const support = [
    ...(others > 0 ? [screen.alsoAsked(others)] : []),
    ...(backers.length > 0 ? [screen.backedBy(backers.length)] : []),
  ]
  return (
    <p className={styles.asker}>
      <PersonLine participant={question.author} />
      {support.length > 0 && <span>{support.join(', ')}</span>}
    </p>
  )
}
