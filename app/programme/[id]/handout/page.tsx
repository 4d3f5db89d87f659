import { meetingPart } from '@/app/messages/parts/meeting.ts'
import { titleFrom } from '@/app/messages/request-language.ts'
import { DayHandoutPage } from './day-handout-page.tsx'

export const generateMetadata = titleFrom(meetingPart, ({ meeting }) => meeting.handoutTitle)

export default async function HandoutOfProgramme({ params }: { params: Promise<{ id: string }> }) {
  const { id } = await params
  return <DayHandoutPage programmeId={id} />
}
