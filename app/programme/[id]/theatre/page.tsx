import { meetingPart } from '@/app/messages/parts/meeting.ts'
import { titleFrom } from '@/app/messages/request-language.ts'
import { DayTheatrePage } from './day-theatre-page.tsx'

export const generateMetadata = titleFrom(meetingPart, ({ meeting }) => meeting.page.theatre)

export default async function TheatreOfProgramme({ params }: { params: Promise<{ id: string }> }) {
  const { id } = await params
  return <DayTheatrePage programmeId={id} />
}
