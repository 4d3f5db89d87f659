import { meetingPart } from '@/app/messages/parts/meeting.ts'
import { titleFrom } from '@/app/messages/request-language.ts'
import { DayCodePage } from './day-code-page.tsx'

export const generateMetadata = titleFrom(meetingPart, ({ meeting }) => meeting.codeTitle)

export default async function CodeOfProgramme({ params }: { params: Promise<{ id: string }> }) {
  const { id } = await params
  return <DayCodePage programmeId={id} />
}
