import { deskPart } from '@/app/messages/parts/desk.ts'
import { titleFrom } from '@/app/messages/request-language.ts'
import { DeskPage } from './desk-page.tsx'

export const generateMetadata = titleFrom(deskPart, ({ desk }) => desk.pageTitle)

export default async function DeskOfCase({ params }: { params: Promise<{ id: string }> }) {
  const { id } = await params
  return <DeskPage caseId={id} />
}
