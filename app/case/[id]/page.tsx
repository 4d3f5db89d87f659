import type { Metadata } from 'next'
import { messages } from '@/app/messages/en.ts'
import { BoardPage } from './board-page.tsx'

export const metadata: Metadata = { title: messages.board.pageTitle }

export default async function CasePage({ params }: { params: Promise<{ id: string }> }) {
  const { id } = await params
  return <BoardPage caseId={id} />
}
