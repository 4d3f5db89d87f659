'use client'

import { usePerson } from '@/app/board/board-context.tsx'
import { useNow } from '@/app/board/steps/use-now.ts'
import { useMessages } from '@/app/messages/for-screens.ts'
import { useViewportSize } from '@/app/screen/clock.ts'
import type { CourseOfSteps } from '@/app/screen/course-of-steps.ts'
import { FittedText } from '@/app/screen/fitted-text.tsx'
import { elapsed } from '@/app/screen/formats.ts'
import type { LinkLoss } from '@/app/screen/link-loss.ts'
import { Stage, tallSurface, wideSurface } from '@/app/screen/stage.tsx'
import { useWords } from '@/app/screen/use-words.ts'
import type { Thread } from '@/lib/board/edits/floor.ts'
import type { ParticipantId } from '@/lib/board/identity.ts'
import type { OperationTime } from '@/lib/board/operation-time.ts'
import type { CaseHeader } from '@/lib/board/records/case-header.ts'
import type { Contingency } from '@/lib/board/records/contingency.ts'
import type { Note } from '@/lib/board/records/note.ts'
import type { Vote } from '@/lib/board/records/vote.ts'
import { plainText } from '@/lib/board/rich-text.ts'
import { OpenContingencies } from './open-contingencies.tsx'
import { StepNow } from './step-now.tsx'
import styles from './theatre-view.module.css'
import { isStillShown, VoteLine } from './vote-line.tsx'

export interface TheatreContent {
  readonly header: CaseHeader | undefined
  readonly course: CourseOfSteps
  readonly time: OperationTime | undefined
  readonly question: Thread | undefined
  readonly contingencies: readonly Contingency[]
  readonly note: Note | undefined
  readonly vote: Vote | undefined
}

const tickMs = 5000

/** What the surgeon needs at a glance from three metres; always dim, nothing to touch. */
export function TheatreView({ content, loss }: { content: TheatreContent; loss: LinkLoss }) {
  const { width, height } = useViewportSize()
  const surface = width >= height ? wideSurface : tallSurface
  const now = useNow(tickMs)
  return (
    <Stage surface={surface} theme="theatre">
      <div className={styles.theatre} data-upright={surface === tallSurface}>
        <LinkLine loss={loss} content={content} now={now} />
        <StepNow course={content.course} now={now} />
        <div className={styles.aside}>
          <CalledQuestion thread={content.question} />
          <OpenContingencies contingencies={content.contingencies} />
          {/* The last decision gives way to a vote: with both, an open contingency was cut in mid-line. */}
          {content.vote !== undefined && isStillShown(content.vote, now) ? (
            <VoteLine vote={content.vote} />
          ) : (
            <NewestNote note={content.note} />
          )}
        </div>
      </div>
    </Stage>
  )
}

interface LinkLineProps {
  readonly loss: LinkLoss
  readonly content: TheatreContent
  readonly now: Date
}

/** Case and time while the link stands; without it the same line says so, and nothing else on it matters. */
function LinkLine({ loss, content: { header, time }, now }: LinkLineProps) {
  const { screens, words } = useMessages()
  const { clock } = useWords()
  const { theatre, screen } = screens
  if (loss.state === 'lost')
    return (
      <p className={styles.lost} role="alert">
        <strong>
          <span aria-hidden="true">✕ </span>
          {theatre.lost[loss.why](clock(loss.since))}
        </strong>
        <span>{theatre.mayBeOld}</span>
      </p>
    )
  if (loss.state === 'not-admitted')
    return (
      <p className={styles.lost} role="alert">
        <strong>{theatre.notAdmitted}</strong>
        <span>{loss.reason}</span>
      </p>
    )
  return (
    <p className={styles.line}>
      <strong className={styles.pseudonym}>{header?.pseudonym}</strong>
      {header !== undefined && <span data-ear={header.ear}>{words.ear[header.ear]}</span>}
      <span className={styles.time}>
        {loss.state === 'linking'
          ? theatre.linking
          : time && theatre.inTotal(elapsed(time.from, time.to === undefined ? now : new Date(time.to), screen))}
      </span>
      <time>{clock(now.toISOString())}</time>
    </p>
  )
}

function CalledQuestion({ thread }: { thread: Thread | undefined }) {
  const { theatre, screen } = useMessages().screens
  return (
    <section className={styles.block} data-block="question" data-empty={thread === undefined}>
      <h2>{theatre.question}</h2>
      {thread === undefined ? (
        <p className={styles.empty}>{theatre.noQuestion}</p>
      ) : (
        <>
          <div className={styles.words}>
            <FittedText largest="title" continues={screen.continues}>
              {thread.question.text}
            </FittedText>
          </div>
          <Asker participant={thread.question.author} />
        </>
      )}
    </section>
  )
}

function Asker({ participant }: { participant: ParticipantId }) {
  const { screens, words, board } = useMessages()
  const person = usePerson(participant)
  const name = person?.name ?? board.unknownPerson
  const role = person?.role ?? null
  return <p className={styles.who}>{role === null ? name : screens.theatre.asks(name, words.role[role])}</p>
}

function NewestNote({ note }: { note: Note | undefined }) {
  const { theatre, screen } = useMessages().screens
  const { clock } = useWords()
  if (note === undefined || note.kind === 'reason') return null
  return (
    <section className={styles.block} data-block="note">
      <h2>
        {theatre.lastNote[note.kind]} <time className={styles.at}>{clock(note.at)}</time>
      </h2>
      <div className={styles.words}>
        <FittedText largest="title" continues={screen.continues}>
          {plainText(note.body)}
        </FittedText>
      </div>
    </section>
  )
}
