'use client'

import { Button } from '@/app/components/button.tsx'
import { IconButton } from '@/app/components/icon-button.tsx'
import { type Messages, useMessages } from '@/app/messages/for-rewind.ts'
import { readRecord } from '@/lib/board/reading.ts'
import { ChangesList } from './changes-list.tsx'
import { elapsed, wallClock } from './clock-words.ts'
import { MarkSign, markKinds } from './mark-sign.tsx'
import { recordTitle } from './record-title.ts'
import styles from './time-bar.module.css'
import { markAfter, markBefore, TimeSlider } from './time-slider.tsx'
import type { MomentState, OpenedMoment } from './use-moment.ts'
import type { Session } from './use-timeline.ts'

interface TimeBarProps {
  readonly session: Session
  readonly wantedMs: number
  readonly moment: MomentState & { readonly opened: OpenedMoment }
  readonly held: OpenedMoment | undefined
  readonly onMove: (ms: number) => void
  readonly onHold: (held: OpenedMoment | undefined) => void
}

/** The time line at the foot of the board, with what happened last at the moment shown, and what changed between two. */
export function TimeBar({ session, wantedMs, moment, held, onMove, onHold }: TimeBarProps) {
  const messages = useMessages()
  const { rewind } = messages
  const { opened, fault, retry } = moment
  const isOpen = opened.atMs === wantedMs
  const last = lastMark(session, wantedMs, opened, messages)
  const says = `${wallClock(wantedMs)}, ${operationTime(session, wantedMs, messages)}. ${last}`
  return (
    <section className={styles.bar} aria-label={rewind.timeline} aria-busy={!isOpen}>
      {held !== undefined &&
        (held.atMs === opened.atMs ? (
          <p className={styles.hint} role="status">
            {rewind.pickSecond(wallClock(held.atMs))}
          </p>
        ) : (
          <ChangesList one={held} other={opened} />
        ))}
      {fault !== undefined && (
        <p className={styles.fault} role="alert">
          {fault} <Button onClick={retry}>{rewind.tryAgain}</Button>
        </p>
      )}
      <div className={styles.line}>
        <IconButton label={rewind.previousMark} onClick={() => onMove(markBefore(session, wantedMs))}>
          <span aria-hidden="true">‹</span>
        </IconButton>
        <IconButton label={rewind.nextMark} onClick={() => onMove(markAfter(session, wantedMs))}>
          <span aria-hidden="true">›</span>
        </IconButton>
        <p className={styles.says}>
          <strong>{isOpen ? wallClock(wantedMs) : rewind.openingMoment(wallClock(wantedMs))}</strong>
          <span>{operationTime(session, wantedMs, messages)}</span>
          <span className={styles.last} dir="auto">
            {last}
          </span>
        </p>
        <Button aria-pressed={held !== undefined} onClick={() => onHold(held === undefined ? opened : undefined)}>
          {held === undefined ? rewind.compare : rewind.endCompare}
        </Button>
      </div>
      <TimeSlider session={session} atMs={wantedMs} heldMs={held?.atMs} says={says} onMove={onMove} />
      <div className={styles.foot}>
        <ul className={styles.legend}>
          {markKinds.map((kind) => (
            <li key={kind} className={styles.kind}>
              <MarkSign kind={kind} /> {rewind.markKind[kind]}
            </li>
          ))}
        </ul>
        <p className={styles.keys}>{rewind.howToMove}</p>
      </div>
    </section>
  )
}

function operationTime({ operationMs }: Session, atMs: number, { rewind }: Messages): string {
  if (operationMs === undefined) return rewind.noOperation
  const away = elapsed(atMs - operationMs)
  return atMs >= operationMs ? rewind.into(away) : rewind.before(away)
}

/** The last thing that had happened by then, named as it was then. */
function lastMark({ marks }: Session, atMs: number, { record, floor }: OpenedMoment, messages: Messages): string {
  const { rewind } = messages
  const last = marks.findLast(({ at }) => Date.parse(at) <= atMs)?.mark
  if (last === undefined) return rewind.nothingMarked
  const inWords: Readonly<Record<string, string>> = rewind.mark[last.kind]
  const found = readRecord(last.kind === 'questions' ? floor : record, last.kind, last.record)
  return rewind.markWith(
    inWords[last.state] ?? rewind.markKind[last.kind],
    found === undefined ? '' : recordTitle(last.kind, found, messages),
  )
}
