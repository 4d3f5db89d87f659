'use client'

import { BoardProvider } from '@/app/board/board-provider.tsx'
import { HandoutPane } from '@/app/handout/handout-pane.tsx'
import type { CaseId } from '@/lib/board/identity.ts'

export default function HandoutCase({ caseId }: { caseId: CaseId }) {
  return (
    <BoardProvider caseId={caseId}>
      <HandoutPane />
    </BoardProvider>
  )
}
