import { overviewPart } from '@/app/messages/parts/overview.ts'
import { titleFrom } from '@/app/messages/request-language.ts'
import { ProgrammePage } from '@/app/overview/programme-page.tsx'

export const generateMetadata = titleFrom(overviewPart, ({ overview }) => overview.programme)

export default async function Programme({ params }: { params: Promise<{ id: string }> }) {
  const { id } = await params
  return <ProgrammePage id={id} />
}
