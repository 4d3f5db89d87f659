import { screensPart } from '@/app/messages/parts/screens.ts'
import { titleFrom } from '@/app/messages/request-language.ts'
import { ScreenPage } from './screen-page.tsx'

export const generateMetadata = titleFrom(screensPart, ({ screens }) => screens.screen.title)

interface ScreenOfCaseProps {
  readonly params: Promise<{ id: string }>
  readonly searchParams: Promise<{ ground?: string | string[] }>
}

/** `?ground=key` puts the screen on one plain colour that a video mixer takes out. */
export default async function ScreenOfCase({ params, searchParams }: ScreenOfCaseProps) {
  const [{ id }, { ground }] = await Promise.all([params, searchParams])
  return <ScreenPage caseId={id} ground={ground === 'key' ? 'key' : 'plain'} />
}
