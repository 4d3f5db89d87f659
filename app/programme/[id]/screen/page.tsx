import { meetingPart } from '@/app/messages/parts/meeting.ts'
import { titleFrom } from '@/app/messages/request-language.ts'
import { DayScreenPage } from './day-screen-page.tsx'

export const generateMetadata = titleFrom(meetingPart, ({ meeting }) => meeting.page.screen)

interface ScreenOfProgrammeProps {
  readonly params: Promise<{ id: string }>
  readonly searchParams: Promise<{ ground?: string | string[] }>
}

/** `?ground=key` puts the screen on one plain colour that a video mixer takes out. */
export default async function ScreenOfProgramme({ params, searchParams }: ScreenOfProgrammeProps) {
  const [{ id }, { ground }] = await Promise.all([params, searchParams])
  return <DayScreenPage programmeId={id} ground={ground === 'key' ? 'key' : 'plain'} />
}
