import type { CaseReport } from '@/lib/report/case-report.ts'
import { publicationMeasures } from './measure-tables.ts'
import { factsOf, type SheetWords, warningsOf } from './record-sheet.ts'
import type { Sheet } from './sheet.ts'

/** One page with the table that a publication asks for, every source named. */
export function publicationSheet(report: CaseReport, { messages }: SheetWords): Sheet {
  const { table, sources } = publicationMeasures(report, messages)
  const labels = messages.report
  const wanted: readonly string[] = [labels.fact.ear, labels.fact.device, labels.fact.site, labels.fact.interval]
  return {
    kind: 'publication',
    heading: labels.heading.publication,
    blocks: [
      ...warningsOf(report, messages),
      { kind: 'facts', facts: factsOf(report, messages).filter(([name]) => wanted.includes(name)) },
      { kind: 'table', id: 'publication', table, tone: 'plain' },
      { kind: 'list', title: labels.sources, entries: sources, tone: 'fine' },
    ],
    cautions: labels.cautions,
  }
}
