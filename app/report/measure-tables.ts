import type { Messages } from '@/app/messages/for-report.ts'
import type { Provenance } from '@/lib/audiometry/provenance.ts'
import type { CaseReport, EarReport } from '@/lib/report/case-report.ts'
import type { ReportRow } from '@/lib/report/report-rows.ts'
import type { Column, Entry, Row, RowGroup, Table } from './sheet.ts'
import { valueText } from './value-text.ts'

/** A table of measures, and the numbered sources that its last column names. */
export interface MeasureTable {
  readonly table: Table
  readonly sources: readonly Entry[]
}

export const recordMeasures = (report: CaseReport, messages: Messages): MeasureTable =>
  measureTable(report, ({ recordRows }) => recordRows, messages.report.measuresCaption, 'alone', messages)

export const publicationMeasures = (report: CaseReport, messages: Messages): MeasureTable =>
  measureTable(
    report,
    ({ publicationRows }) => publicationRows,
    messages.report.publicationCaption,
    'grouped',
    messages,
  )

/** Lines that differ by no more than one convention stand once for every ear: all ears have the same rows in the same order. */
function measureTable(
  { ears }: CaseReport,
  rowsOf: (ear: EarReport) => readonly ReportRow[],
  caption: string,
  grouping: 'alone' | 'grouped',
  messages: Messages,
): MeasureTable {
  const { report } = messages
  const sources = new Map<string, Provenance>()
  const numberOf = (of: Provenance): number => {
    const text = report.source(of.source, of.status, of.reservation)
    if (!sources.has(text)) sources.set(text, of)
    return [...sources.keys()].indexOf(text) + 1
  }
  const first = ears[0] === undefined ? [] : rowsOf(ears[0])
  const rows = first.map((row, index) => ({
    standard: row.standard,
    row: rowOf(
      row,
      ears.map((ear) => rowsOf(ear)[index] ?? row),
      numberOf(row.provenance),
      messages,
    ),
  }))
  const standards = [...new Set(rows.map(({ standard }) => standard))]
  const groups: readonly RowGroup[] =
    grouping === 'alone'
      ? [{ rows: rows.map(({ row }) => row) }]
      : standards.map((standard) => ({
          name: report.standard[standard],
          rows: rows.flatMap((of) => (of.standard === standard ? [of.row] : [])),
        }))
  return {
    table: { caption: `${caption} ${report.changeHint}`, columns: columnsFor(ears, messages), groups },
    sources: [...sources.keys()].map((text, index) => ({ id: text, text: `[${index + 1}] ${text}` })),
  }
}

function columnsFor(ears: readonly EarReport[], { report, words }: Messages): readonly Column[] {
  const of = (name: string, { ear }: EarReport): Column => ({
    name: ears.length === 1 ? name : report.columnOf(name, words.earShort[ear]),
    share: ears.length === 1 ? 15 : 11,
    align: 'end',
  })
  return [
    { name: report.column.measure, share: ears.length === 1 ? 47 : 34, align: 'start' },
    ...ears.flatMap((ear) => [of(report.before, ear), of(report.after, ear), of(report.change, ear)]),
    { name: report.column.source, share: 8, align: 'end' },
  ]
}

function rowOf(row: ReportRow, ofEars: readonly ReportRow[], source: number, { report, shell }: Messages): Row {
  const notes = [...new Set(ofEars.flatMap((of) => of.notes))].map((of) => report.note[of])
  const over = row.frequencies.length === 0 ? [] : [report.over(row.frequencies)]
  const unit = row.unit === '' || row.unit === '%' || row.measure === 'gap-bin' ? '' : row.unit
  const details = shell.separated([...over, ...(unit === '' ? [] : [unit]), ...notes])
  return {
    id: `${row.standard} ${row.measure} ${row.frequencies.join(' ')}`,
    cells: [
      details === '' ? report.measure[row.measure] : `${report.measure[row.measure]} (${details})`,
      ...ofEars.flatMap(({ before, after, change }) => [
        valueText(before, report.value, 'plain'),
        valueText(after, report.value, 'plain'),
        valueText(change, report.value, 'signed'),
      ]),
      `[${source}]`,
    ],
  }
}
