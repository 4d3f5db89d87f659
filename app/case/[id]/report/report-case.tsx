'use client'

import { BoardProvider } from '@/app/board/board-provider.tsx'
import { ReportPane } from '@/app/report/report-pane.tsx'
import type { CaseId } from '@/lib/board/identity.ts'

export default function ReportCase({ caseId }: { caseId: CaseId }) {
  return (
    <BoardProvider caseId={caseId}>
      <ReportPane />
    </BoardProvider>
  )
}
