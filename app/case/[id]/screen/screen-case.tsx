'use client'

import { BoardProvider } from '@/app/board/board-provider.tsx'
import { ScreenPane } from '@/app/screen/screen-pane.tsx'
import type { CaseId } from '@/lib/board/identity.ts'
import type { ScreenGround } from './screen-page.tsx'

export default function ScreenCase({ caseId, ground }: { caseId: CaseId; ground: ScreenGround }) {
  return (
    <BoardProvider caseId={caseId}>
      <ScreenPane ground={ground} />
    </BoardProvider>
  )
}
