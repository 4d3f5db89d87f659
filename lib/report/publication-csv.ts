import Papa from 'papaparse'
import type { GapBin } from '../audiometry/gap-closure.ts'
import type { ScattergramCell } from '../outcomes/scattergram-cell.ts'
import type { Ear } from '../units/frequencies.ts'
import type { CaseReport } from './case-report.ts'
import type { ReportRow } from './report-rows.ts'
import type { ReportValue } from './report-value.ts'

/** One value in columns of its own: a number, what kind of number it is, and why there is none. */
interface Written {
  readonly value: string
  /** `exact`, or the side on which the true value lies, or the reason why there is none */
  readonly status: string
}

const occasions = ['before', 'after', 'change'] as const

/**
 * The publication table for a spreadsheet or a statistics program: one row an ear and measure, numbers as numbers, decimal
 * points, codes in English whatever the language of the page.
 * @param delimiter a comma for a file, a tab for pasting into cells
 */
export function publicationTable({ ears, visit }: CaseReport, delimiter: ',' | '\t'): string {
  const fields = [
    'ear',
    'operated',
    'visit_on',
    'standard',
    'measure',
    'frequencies_hz',
    'unit',
    ...occasions.flatMap((occasion) => [occasion, `${occasion}_status`]),
    'notes',
    'source',
    'source_status',
    'reservation',
  ]
  const data = ears.flatMap(({ ear, isOperated, publicationRows }) =>
    publicationRows.map((row) => cellsOf(row, ear, isOperated, visit?.held.on ?? '')),
  )
  return Papa.unparse({ fields, data }, { delimiter, newline: '\r\n', escapeFormulae: /^[=+@\t\r]/ })
}

function cellsOf(row: ReportRow, ear: Ear, isOperated: boolean, visitOn: string): string[] {
  return [
    ear,
    isOperated ? 'yes' : 'no',
    visitOn,
    row.standard,
    row.measure,
    row.frequencies.join(' '),
    row.unit,
    ...occasions.flatMap((occasion) => {
      const { value, status } = writtenOf(row[occasion])
      return [value, status]
    }),
    row.notes.join(' '),
    row.provenance.source,
    row.provenance.status,
    row.provenance.reservation ?? '',
  ]
}

const number = (value: number): string => String(Math.round(value * 1000) / 1000)

function writtenOf(value: ReportValue | undefined): Written {
  if (value === undefined) return { value: '', status: 'not-applicable' }
  switch (value.kind) {
    case 'level':
      return { value: number(value.value), status: value.censored ? 'at-least' : 'exact' }
    case 'difference':
      return value.difference.kind === 'undetermined'
        ? { value: '', status: 'no-response' }
        : { value: number(value.difference.value), status: value.difference.kind }
    case 'bin':
      return { value: binText(value.bin), status: 'exact' }
    case 'score':
      return { value: number((100 * value.right) / value.items), status: `${value.right} of ${value.items}` }
    case 'points':
      return { value: number(value.points), status: 'exact' }
    case 'cell':
      return { value: cellText(value.cell), status: 'exact' }
    case 'missing':
      return { value: '', status: `not-measured ${value.frequencies.join(' ')}` }
    case 'absent':
      return { value: '', status: value.why }
    default:
      return value satisfies never
  }
}

const binText = (bin: GapBin): string => bin.replace('<= ', 'to ').replace('> ', 'above ')

function cellText({ averageAbove, averageTo, scoreAbove, scoreTo }: ScattergramCell): string {
  const average =
    averageTo === undefined
      ? `above ${averageAbove}`
      : averageAbove === undefined
        ? `to ${averageTo}`
        : `${averageAbove} to ${averageTo}`
  const score = scoreAbove === undefined ? `to ${scoreTo}` : `${scoreAbove} to ${scoreTo}`
  return `${average} dB HL, ${score} %`
}
