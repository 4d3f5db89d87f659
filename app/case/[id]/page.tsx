import { everywhere } from '@/app/messages/parts/everywhere.ts'
import { titleFrom } from '@/app/messages/request-language.ts'
import { BoardPage } from './board-page.tsx'

export const generateMetadata = titleFrom(everywhere, ({ board }) => board.pageTitle)

interface CasePageProps {
  readonly params: Promise<{ id: string }>
  readonly searchParams: Promise<{ meeting?: string | string[] }>
}

/** `?meeting`: opened from a programme, so that the board tells when the meeting goes on to another case. */
export default async function CasePage({ params, searchParams }: CasePageProps) {
  const [{ id }, { meeting }] = await Promise.all([params, searchParams])
  return <BoardPage caseId={id} inMeeting={meeting !== undefined} />
}
