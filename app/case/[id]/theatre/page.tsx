import { screensPart } from '@/app/messages/parts/screens.ts'
import { titleFrom } from '@/app/messages/request-language.ts'
import { TheatrePage } from './theatre-page.tsx'

export const generateMetadata = titleFrom(screensPart, ({ screens }) => screens.theatre.title)

export default async function TheatreOfCase({ params }: { params: Promise<{ id: string }> }) {
  const { id } = await params
  return <TheatrePage caseId={id} />
}
