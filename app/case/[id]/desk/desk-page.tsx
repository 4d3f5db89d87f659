'use client'

import dynamic from 'next/dynamic'
import { OpeningNotice } from '@/app/board/opening-notice.tsx'
import type { CaseId } from '@/lib/board/identity.ts'

/** Never rendered on the server, which has Yjs of its own. */
const Desk = dynamic(() => import('./desk-case.tsx'), {
  ssr: false,
  loading: () => <OpeningNotice reason={undefined} />,
})

export const DeskPage = ({ caseId }: { caseId: CaseId }) => <Desk caseId={caseId} />
