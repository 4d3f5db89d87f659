'use client'

import { lazy, Suspense } from 'react'
import { BoardProvider } from '@/app/board/board-provider.tsx'
import { OpeningNotice } from '@/app/board/opening-notice.tsx'
import { loadDeskParts } from '@/app/desk/desk-parts.ts'
import type { CaseId } from '@/lib/board/identity.ts'

const Desk = lazy(async () => {
  const [{ Desk: Loaded }] = await Promise.all([import('@/app/desk/desk.tsx'), loadDeskParts()])
  return { default: Loaded }
})

export default function DeskCase({ caseId }: { caseId: CaseId }) {
  return (
    <BoardProvider caseId={caseId}>
      <Suspense fallback={<OpeningNotice reason={undefined} />}>
        <Desk />
      </Suspense>
    </BoardProvider>
  )
}
