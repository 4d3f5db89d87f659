'use client'

import { BoardProvider } from '@/app/board/board-provider.tsx'
import { FollowUpPane } from '@/app/follow-up/follow-up-pane.tsx'
import type { CaseId } from '@/lib/board/identity.ts'

export default function FollowUpCase({ caseId }: { caseId: CaseId }) {
  return (
    <BoardProvider caseId={caseId}>
      <FollowUpPane />
    </BoardProvider>
  )
}
