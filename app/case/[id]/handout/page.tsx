import type { Metadata } from 'next'
import { messages } from '@/app/messages/en.ts'
import { HandoutPage } from './handout-page.tsx'

export const metadata: Metadata = { title: messages.screens.handout.title }

export default async function HandoutOfCase({ params }: { params: Promise<{ id: string }> }) {
  const { id } = await params
  return <HandoutPage caseId={id} />
}
