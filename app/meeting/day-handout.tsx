'use client'

import Link from 'next/link'
import { BoardProvider } from '@/app/board/board-provider.tsx'
import { OpeningNotice } from '@/app/board/opening-notice.tsx'
import { Button } from '@/app/components/button.tsx'
import { CaseHandout } from '@/app/handout/case-handout.tsx'
import pane from '@/app/handout/handout-pane.module.css'
import { useGenerationTime, usePageFoot } from '@/app/handout/paper.ts'
import { useMessages } from '@/app/messages/for-meeting.ts'
import { clockOf, dayAndClockOf } from '@/app/messages/moments.ts'
import type { ProgrammeDetail } from '@/lib/interchange/api.ts'
import styles from './day-handout.module.css'
import { plannedTimeOf } from './planned-time.ts'
import { useProgramme } from './use-programme.ts'

/** The handout of every case of the programme that the reader may open, in the order of the day. */
export default function DayHandout({ programmeId }: { programmeId: string }) {
  const following = useProgramme(programmeId)
  if (following.state !== 'following')
    return <OpeningNotice reason={following.state === 'failed' ? following.reason : undefined} />
  return (
    <Sheets detail={following.detail} lostSince={following.link.state === 'lost' ? following.link.since : undefined} />
  )
}

function Sheets({ detail, lostSince }: { detail: ProgrammeDetail; lostSince: string | undefined }) {
  const { meeting, screens } = useMessages()
  const { handout } = screens
  const { programme, cases } = detail
  const generatedAt = useGenerationTime()
  const checkAddress = `${location.origin}/programme/${programme.id}/code`
  usePageFoot(meeting.handoutFoot(programme.label, dayAndClockOf(generatedAt)))
  return (
    <main className={pane.desk}>
      <nav className={pane.tools}>
        <Button tone="accent" onClick={() => print()}>
          {handout.print}
        </Button>
        <Link href={`/programme/${programme.id}/code`}>{handout.checkCode}</Link>
        <Link href={`/programme/${programme.id}`}>{meeting.backToProgramme}</Link>
      </nav>
      {lostSince !== undefined && (
        <p className={styles.gap} role="alert">
          {meeting.linkLost(clockOf(lostSince))}
        </p>
      )}
      <Cover detail={detail} generatedAt={generatedAt} checkAddress={checkAddress} />
      {cases.map(({ id, label }) => (
        <div key={id} className={styles.case}>
          <BoardProvider
            caseId={id}
            notice={(reason) => (
              <p className={styles.gap} role={reason === undefined ? 'status' : 'alert'}>
                {reason === undefined ? meeting.opening(label) : meeting.notOpened(label, reason)}
              </p>
            )}
          >
            <CaseHandout generatedAt={generatedAt} checkAddress={checkAddress} />
          </BoardProvider>
        </div>
      ))}
    </main>
  )
}

interface CoverProps {
  readonly detail: ProgrammeDetail
  readonly generatedAt: string
  readonly checkAddress: string
}

/** The order of the day, so that a sheet that went missing is noticed. */
function Cover({ detail: { programme, cases }, generatedAt, checkAddress }: CoverProps) {
  const { meeting, screens, words } = useMessages()
  return (
    <article className={styles.cover} data-theme="clinic">
      <p className={styles.what}>{meeting.handoutTitle}</p>
      <h1 className={styles.title}>{programme.label}</h1>
      <p className={styles.quiet}>{screens.handout.generated(dayAndClockOf(generatedAt))}</p>
      <ol className={styles.order} aria-label={meeting.handoutCases(cases.length)}>
        {cases.map(({ id, label, ear, plannedAt, breakBefore }) => (
          <li key={id}>
            {breakBefore !== '' && <p className={styles.break}>{breakBefore}</p>}
            <p className={styles.entry}>
              <time>{plannedAt === null ? '' : plannedTimeOf(plannedAt, new Date(generatedAt))}</time>
              <strong>{label}</strong>
              <span>{ear === null ? '' : words.ear[ear]}</span>
            </p>
          </li>
        ))}
      </ol>
      <p>{meeting.handoutHowTo(checkAddress)}</p>
      <ul className={styles.cautions}>
        {screens.handout.cautions.map((caution) => (
          <li key={caution}>{caution}</li>
        ))}
      </ul>
    </article>
  )
}
