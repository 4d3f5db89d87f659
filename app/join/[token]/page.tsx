import type { Metadata } from 'next'
import { messages } from '@/app/messages/en.ts'
import { JoinPage } from './join-page.tsx'

export const metadata: Metadata = { title: messages.join.title }

export default async function Join({ params }: { params: Promise<{ token: string }> }) {
  const { token } = await params
  return <JoinPage token={token} />
}
