'use client'

import { BoardProvider } from '@/app/board/board-provider.tsx'
import { TheatrePane } from '@/app/theatre/theatre-pane.tsx'
import type { CaseId } from '@/lib/board/identity.ts'

export default function TheatreCase({ caseId }: { caseId: CaseId }) {
  return (
    <BoardProvider caseId={caseId}>
      <TheatrePane />
    </BoardProvider>
  )
}
