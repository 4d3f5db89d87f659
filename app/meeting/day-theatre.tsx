'use client'

import { TheatrePane } from '@/app/theatre/theatre-pane.tsx'
import { FollowedCase } from './followed-case.tsx'

/** The theatre view of the whole day. */
export default function DayTheatre({ programmeId }: { programmeId: string }) {
  return (
    <FollowedCase programmeId={programmeId} theme="theatre">
      <TheatrePane />
    </FollowedCase>
  )
}
