import { joinPart } from '@/app/messages/parts/join.ts'
import { titleFrom } from '@/app/messages/request-language.ts'
import { JoinPage } from './join-page.tsx'

export const generateMetadata = titleFrom(joinPart, ({ join }) => join.title)

export default async function Join({ params }: { params: Promise<{ token: string }> }) {
  const { token } = await params
  return <JoinPage token={token} />
}
