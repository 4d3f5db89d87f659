'use client'

import Link from 'next/link'
import { Button } from '@/app/components/button.tsx'
import { useMessages } from '@/app/messages/for-meeting.ts'
import { clockOf } from '@/app/messages/moments.ts'
import type { ProgrammeDetail } from '@/lib/interchange/api.ts'
import styles from './now-panel.module.css'
import { plannedTimeOf } from './planned-time.ts'
import type { FollowLink } from './programme-follower.ts'

interface NowPanelProps {
  readonly detail: ProgrammeDetail
  readonly link: FollowLink
  /** given to whoever leads the programme */
  readonly onBetween: (() => void) | undefined
}

/** Which case is on, and which comes next: what somebody who comes into the meeting wants to know first. */
export function NowPanel({ detail, link, onBetween }: NowPanelProps) {
  const { meeting } = useMessages()
  const { onNow } = detail
  const on = onNow.kind === 'case' ? detail.cases.find(({ id }) => id === onNow.id) : undefined
  return (
    <section className={styles.panel} data-on={onNow.kind !== 'between'} aria-label={meeting.onNow} tabIndex={-1}>
      {link.state === 'lost' && (
        <p className={styles.lost} role="alert">
          <span aria-hidden="true">✕ </span>
          {meeting.linkLost(clockOf(link.since))}
        </p>
      )}
      <div aria-live="polite">
        <p className={styles.label}>
          {onNow.kind === 'between' ? null : meeting.onNow}
          {onNow.since !== null && <time dateTime={onNow.since}> {meeting.since(clockOf(onNow.since))}</time>}
        </p>
        <p className={styles.what}>{on?.label ?? withoutCase(detail, meeting)}</p>
        <NextLine detail={detail} />
      </div>
      <div className={styles.acts}>
        {on !== undefined && (
          <Link className={styles.open} href={`/case/${on.id}?meeting`}>
            {meeting.openBoard(on.label)}
          </Link>
        )}
        {onBetween !== undefined && onNow.kind === 'case' && <Button onClick={onBetween}>{meeting.goBetween}</Button>}
      </div>
      {onBetween !== undefined && (
        <p className={styles.consent}>
          <span aria-hidden="true">△ </span>
          {meeting.consent}
        </p>
      )}
    </section>
  )
}

type MeetingWords = ReturnType<typeof useMessages>['meeting']

function withoutCase({ onNow }: ProgrammeDetail, words: MeetingWords): string {
  if (onNow.kind === 'elsewhere') return words.elsewhere
  return onNow.since === null ? words.notBegun : words.between
}

function NextLine({ detail: { cases, next } }: { detail: ProgrammeDetail }) {
  const { meeting } = useMessages()
  const coming = cases.find(({ id }) => id === next)
  if (coming === undefined) return <p className={styles.next}>{cases.length === 0 ? null : meeting.lastOne}</p>
  const { label, plannedAt } = coming
  return (
    <p className={styles.next}>
      {plannedAt === null ? meeting.next(label) : meeting.nextAt(label, plannedTimeOf(plannedAt, new Date()))}
    </p>
  )
}
