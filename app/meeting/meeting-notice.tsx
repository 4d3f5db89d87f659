'use client'

import { useRef, useState } from 'react'
import notices from '@/app/board/frame/notices.module.css'
import { Button } from '@/app/components/button.tsx'
import { useMessages } from '@/app/messages/for-meeting.ts'
import type { CaseId } from '@/lib/board/identity.ts'
import styles from './meeting-notice.module.css'
import { useProgramme } from './use-programme.ts'

interface MeetingNoticeProps {
  readonly programmeId: string
  /** the case whose board this is */
  readonly caseId: CaseId
}

/** Says quietly in the board of a case that the meeting went on to another one; nobody is carried off from what they type. */
export default function MeetingNotice({ programmeId, caseId }: MeetingNoticeProps) {
  const { meeting } = useMessages()
  const following = useProgramme(programmeId)
  const atOpening = useRef<string | null>(undefined)
  const [stayed, setStayed] = useState<string>()
  if (following.state !== 'following') return null
  const { onNow, cases } = following.detail
  // Whoever opens the board of another case than the one that is on knows what they do.
  if (atOpening.current === undefined) atOpening.current = onNow.since
  if (onNow.kind !== 'case' || onNow.id === caseId || onNow.since === atOpening.current || onNow.since === stayed)
    return null
  const on = cases.find(({ id }) => id === onNow.id)
  if (on === undefined) return null
  return (
    <div className={styles.notice} role="status">
      <p>{meeting.wentOn(on.label)}</p>
      <div className={notices.acts}>
        <a className={styles.follow} href={`/case/${on.id}?meeting`}>
          {meeting.follow}
        </a>
        <Button onClick={() => setStayed(onNow.since)}>{meeting.stay}</Button>
      </div>
    </div>
  )
}
