'use client'

import { BoardProvider } from '@/app/board/board-provider.tsx'
import { CodePane } from '@/app/code/code-pane.tsx'
import type { CaseId } from '@/lib/board/identity.ts'

export default function CodeCase({ caseId }: { caseId: CaseId }) {
  return (
    <BoardProvider caseId={caseId}>
      <CodePane />
    </BoardProvider>
  )
}
