import type { Metadata } from 'next'
import { messages } from '@/app/messages/en.ts'
import { TheatrePage } from './theatre-page.tsx'

export const metadata: Metadata = { title: messages.screens.theatre.title }

export default async function TheatreOfCase({ params }: { params: Promise<{ id: string }> }) {
  const { id } = await params
  return <TheatrePage caseId={id} />
}
