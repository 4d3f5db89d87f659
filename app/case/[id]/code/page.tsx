import { screensPart } from '@/app/messages/parts/screens.ts'
import { titleFrom } from '@/app/messages/request-language.ts'
import { CodePage } from './code-page.tsx'

export const generateMetadata = titleFrom(screensPart, ({ screens }) => screens.code.title)

export default async function CodeOfCase({ params }: { params: Promise<{ id: string }> }) {
  const { id } = await params
  return <CodePage caseId={id} />
}
