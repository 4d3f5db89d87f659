'use client'

import type { CaseId } from '@/lib/board/identity.ts'
import { BoardProvider } from '../board-provider.tsx'
import { BoardFrame } from './board-frame.tsx'

export default function Board({ caseId }: { caseId: CaseId }) {
  return (
    <BoardProvider caseId={caseId}>
      <BoardFrame />
    </BoardProvider>
  )
}
