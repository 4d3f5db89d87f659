import { followUpPart } from '@/app/messages/parts/follow-up.ts'
import { titleFrom } from '@/app/messages/request-language.ts'
import { FollowUpPage } from './follow-up-page.tsx'

export const generateMetadata = titleFrom(followUpPart, ({ followUp }) => followUp.pageTitle)

export default async function FollowUpOfCase({ params }: { params: Promise<{ id: string }> }) {
  const { id } = await params
  return <FollowUpPage caseId={id} />
}
