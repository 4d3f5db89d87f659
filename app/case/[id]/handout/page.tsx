import { screensPart } from '@/app/messages/parts/screens.ts'
import { titleFrom } from '@/app/messages/request-language.ts'
import { HandoutPage } from './handout-page.tsx'

export const generateMetadata = titleFrom(screensPart, ({ screens }) => screens.handout.title)

export default async function HandoutOfCase({ params }: { params: Promise<{ id: string }> }) {
  const { id } = await params
  return <HandoutPage caseId={id} />
}
