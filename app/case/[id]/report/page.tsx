import { reportPart } from '@/app/messages/parts/report.ts'
import { titleFrom } from '@/app/messages/request-language.ts'
import { ReportPage } from './report-page.tsx'

export const generateMetadata = titleFrom(reportPart, ({ report }) => report.pageTitle)

export default async function ReportOfCase({ params }: { params: Promise<{ id: string }> }) {
  const { id } = await params
  return <ReportPage caseId={id} />
}
