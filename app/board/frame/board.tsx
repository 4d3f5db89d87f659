'use client'

import { Activity, lazy, Suspense, useCallback, useState } from 'react'
import type { CaseId } from '@/lib/board/identity.ts'
import { useBoard } from '../board-context.tsx'
import { BoardProvider } from '../board-provider.tsx'
import { BoardFrame } from './board-frame.tsx'
import { rewindButtonId } from './board-head.tsx'

export { openEarly } from '../open-board.ts'

const RewoundBoard = lazy(() => import('../rewind/rewound-board.tsx'))

const MeetingNotice = lazy(() => import('@/app/meeting/meeting-notice.tsx'))

interface BoardProps {
  readonly caseId: CaseId
  /** opened from a programme that runs */
  readonly inMeeting: boolean
}

/** The board of a case. While somebody looks back, the live one waits unseen with all that was typed in it, still connected. */
export default function Board({ caseId, inMeeting }: BoardProps) {
  const [isRewound, setRewound] = useState(false)
  const rewind = useCallback(() => setRewound(true), [])
  const end = useCallback(() => {
    setRewound(false)
    requestAnimationFrame(() => document.getElementById(rewindButtonId)?.focus())
  }, [])
  return (
    <BoardProvider caseId={caseId}>
      {isRewound && (
        <Suspense>
          <RewoundBoard onEnd={end} />
        </Suspense>
      )}
      <Activity mode={isRewound ? 'hidden' : 'visible'}>
        <BoardFrame notice={inMeeting ? <Meeting /> : null} onRewind={rewind} />
      </Activity>
    </BoardProvider>
  )
}

function Meeting() {
  const { caseId, programme } = useBoard()
  return (
    <Suspense>
      <MeetingNotice programmeId={programme.id} caseId={caseId} />
    </Suspense>
  )
}
