'use client'

import { lazy, type ReactNode, Suspense, useId } from 'react'
import { Byline } from '@/app/board/byline.tsx'
import { QuestionTask, ThreadBody } from '@/app/board/later-parts.ts'
import type { RowProps } from '@/app/components/roving-rows.ts'
import { StateSign } from '@/app/components/state-sign.tsx'
import { useMessages } from '@/app/messages/use-messages.ts'
import type { Thread } from '@/lib/board/edits/floor.ts'
import { AnchorChip } from './anchor-chip.tsx'
import { BackButton } from './back-button.tsx'
import type { FloorDesk } from './floor-desk.ts'
import { QuestionActions } from './question-actions.tsx'
import type { QuestionAct, QuestionRights } from './question-rights.ts'
import styles from './question-row.module.css'

const AskedWhile = lazy(() => import('./asked-while.tsx'))

/** A form that stands open inside a question. */
export type Task = Extract<QuestionAct, 'answer' | 'draftAnswer' | 'defer' | 'reply' | 'reword' | 'fold' | 'takeBack'>

interface QuestionRowProps {
  readonly thread: Thread
  /** its number among those that wait, from 1 */
  readonly place?: number | undefined
  readonly threads: readonly Thread[]
  readonly desk: FloorDesk
  readonly rights: QuestionRights
  readonly rowProps: RowProps
  readonly isCurrent: boolean
  readonly isOpen: boolean
  readonly task: Task | undefined
  /** what else is to be known of it where it stands */
  readonly beside?: ReactNode
  readonly moreActs?: ReactNode
  readonly onToggle: () => void
  readonly onAct: (act: QuestionAct) => void
  readonly onTaskDone: () => void
  readonly onShift: (by: -1 | 1) => void
}

/** One question: its words open and shut the thread; what may be done to it stands below while it is the current one. */
export function QuestionRow(props: QuestionRowProps) {
  const { thread, place, desk, rights, rowProps, isCurrent, isOpen } = props
  const { floor } = useMessages()
  const { question } = thread
  const factsId = useId()
  const tabIndex = isCurrent ? 0 : -1
  const pictureAt = question.pictureAt ?? desk.pictures.get(question.author)
  return (
    <li
      className={styles.row}
      data-row-of={question.id}
      data-state={question.state}
      data-current={isCurrent}
      data-numbered={place !== undefined}
    >
      <div className={styles.head}>
        {place !== undefined && (
          <span className={styles.place} title={floor.list.inQueue(place)} aria-hidden="true">
            {place}
          </span>
        )}
        <button
          type="button"
          {...rowProps}
          className={styles.words}
          aria-expanded={isOpen}
          aria-describedby={factsId}
          dir="auto"
          onClick={props.onToggle}
        >
          <span className={styles.text}>{question.text}</span>
        </button>
        <BackButton thread={thread} desk={desk} mayBack={rights.back} tabIndex={tabIndex} />
      </div>
      <p className={styles.facts} id={factsId}>
        {(question.author === desk.me || desk.own.has(question.author)) && (
          <StateSign tone="accent">{floor.list.yours}</StateSign>
        )}
        <Byline person={desk.people.get(question.author)} at={question.at} />
        {pictureAt !== undefined && desk.may.mayChange('questions', 'rank', question) && (
          <Suspense>
            <AskedWhile pictureAt={pictureAt} />
          </Suspense>
        )}
        {thread.replies.length > 0 && <span>{floor.thread.replies(thread.replies.length)}</span>}
        {thread.folded.length > 0 && <span>{floor.thread.folded(thread.folded.length)}</span>}
      </p>
      {question.anchor !== undefined && (
        <div className={styles.about}>
          <AnchorChip anchor={question.anchor} named={desk} tabIndex={tabIndex} />
        </div>
      )}
      {props.beside}
      <Outcome thread={thread} desk={desk} />
      {isOpen && <ThreadBody thread={thread} desk={desk} mayUnfold={rights.unfold} />}
      {isCurrent && (
        <QuestionActions
          rights={rights}
          hasScreen={desk.acts.screen !== undefined}
          task={props.task}
          onAct={props.onAct}
          onShift={props.onShift}
          more={props.moreActs}
        />
      )}
      {props.task !== undefined && (
        <QuestionTask
          task={props.task}
          thread={thread}
          threads={props.threads}
          desk={desk}
          onTaskDone={props.onTaskDone}
        />
      )}
    </li>
  )
}

/** What became of it: the answer with its speaker, or until when it is put off. */
function Outcome({ thread: { question }, desk }: Pick<QuestionRowProps, 'thread' | 'desk'>) {
  const { floor, board } = useMessages()
  if (question.state === 'deferred' && question.deferredTo !== undefined)
    return <p className={styles.outcome}>{floor.thread.deferredTo(question.deferredTo)}</p>
  if (question.answer === undefined) return null
  const { text, by, saidBy } = question.answer
  const writer = desk.people.get(by)?.name ?? board.unknownPerson
  return (
    <div className={styles.outcome} data-closed={question.state === 'answered'}>
      <p className={styles.answer} dir="auto">
        {text}
      </p>
      <p className={styles.fine}>
        {[saidBy === undefined ? [] : floor.thread.said(saidBy), floor.thread.written(writer)].flat().join(' · ')}
      </p>
      {question.state !== 'answered' && <p className={styles.fine}>{floor.thread.waitsForDesk}</p>}
    </div>
  )
}
