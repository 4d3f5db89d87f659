import type { Metadata } from 'next'
import { messages } from '@/app/messages/en.ts'
import { CodePage } from './code-page.tsx'

export const metadata: Metadata = { title: messages.screens.code.title }

export default async function CodeOfCase({ params }: { params: Promise<{ id: string }> }) {
  const { id } = await params
  return <CodePage caseId={id} />
}
