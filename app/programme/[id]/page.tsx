import type { Metadata } from 'next'
import { messages } from '@/app/messages/en.ts'
import { ProgrammePage } from '@/app/overview/programme-page.tsx'

export const metadata: Metadata = { title: messages.overview.programme }

export default async function Programme({ params }: { params: Promise<{ id: string }> }) {
  const { id } = await params
  return <ProgrammePage id={id} />
}
