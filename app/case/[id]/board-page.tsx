'use client'

import dynamic from 'next/dynamic'
import { beginEarly } from '@/app/board/begin-early.ts'
import { OpeningNotice } from '@/app/board/opening-notice.tsx'
import type { CaseId } from '@/lib/board/identity.ts'

// Asked for when this script runs and not only when the page has been drawn, for which a slow phone takes long. What fails here is
// asked for again below.
if (typeof window !== 'undefined') {
  const { pathname } = location
  const begun = beginEarly(pathname)
  import('@/app/board/frame/board.tsx')
    .then(({ openEarly }) => begun !== undefined && location.pathname === pathname && openEarly(begun))
    .catch(() => undefined)
}

/** Never rendered on the server, which has Yjs of its own. */
const Board = dynamic(() => import('@/app/board/frame/board.tsx'), {
  ssr: false,
  loading: () => <OpeningNotice reason={undefined} />,
})

interface BoardPageProps {
  readonly caseId: CaseId
  /** opened from a programme that runs */
  readonly inMeeting: boolean
}

export const BoardPage = (props: BoardPageProps) => <Board {...props} />
