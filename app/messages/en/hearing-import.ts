import type { CellFault, CsvWarning, FileFault } from '@/lib/interchange/csv-faults.ts'
import type { PointFault } from '@/lib/interchange/point-text.ts'
import { pointFaults } from './hearing.ts'

const plural = (count: number, one: string, many: string): string =>
  `${count.toLocaleString('en')} ${count === 1 ? one : many}`

type CsvFaultSentences = {
  readonly [C in Exclude<CellFault['code'], PointFault['code']>]: (fault: Extract<CellFault, { code: C }>) => string
}
const cellFaults: CsvFaultSentences = {
  'unknown-ear': ({ text }) => `"${text}" is not an ear. Write right or left.`,
  'unknown-route': ({ text }) => `"${text}" is not a route. Write air, bone, sound-field or aided.`,
  'unknown-masking': ({ text }) => `"${text}" does not say whether the other ear was masked. Write yes or no.`,
  'unknown-response': ({ text }) => `"${text}" is not a response. Write heard, no-response or could-not-test.`,
  'unknown-frequency': ({ text }) =>
    `"${text}" is not an audiometric frequency in Hz. Known are 125 to 8000 Hz with half-octaves, and 9000 to 16000 Hz.`,
  'unknown-condition': ({ text }) => `"${text}" is not a condition. Write unaided, sound-field or aided.`,
  'not-a-date': ({ text }) => `"${text}" is not a date. Write year-month-day, for example 2026-05-31.`,
  'condition-mismatch': ({ route, condition }) =>
    `A test in condition "${condition}" has no points by route "${route}".`,
  'no-level': () => 'The level is missing. Leave the whole row out when the frequency was not tested.',
  'level-with-could-not-test': ({ text }) =>
    `"${text}" stands beside "could not test". Only one of the two can be true.`,
  'duplicate-point': ({ otherRow }) => `Row ${otherRow} gives the same point. Only one of the two can stand.`,
  'extra-cells': ({ cells, columns }) =>
    `The row has ${cells} cells, the header ${columns}. A separator may be inside a value.`,
  'open-quote': () => 'A quotation mark opens here and is not closed.',
}

const fileFaults: { readonly [C in FileFault['code']]: (fault: Extract<FileFault, { code: C }>) => string } = {
  empty: () => 'There is no row below a header. The first row names the columns, each further row is read.',
  'too-long': ({ characters, most }) =>
    `The text has ${characters.toLocaleString('en')} characters; one import takes ${most.toLocaleString('en')} at most.`,
  'too-many-rows': ({ rows, most }) =>
    `There are ${rows.toLocaleString('en')} rows; one import takes ${most.toLocaleString('en')} at most. Import the tests of one case only, or in parts.`,
  'missing-column': ({ columns, found }) =>
    `Missing: ${columns.join(', ')}. Found: ${found.map((title) => `"${title.slice(0, 40)}"`).join(', ')}.`,
  'column-twice': ({ column }) => `The column "${column}" stands there twice.`,
  'wrong-unit-column': ({ column, expected }) =>
    `"${column}" is in another unit. This board reads ${expected === 'level_db_hl' ? 'hearing levels in dB HL' : 'frequencies in Hz'}; convert the column and name it ${expected}.`,
  'unknown-frequency-column': ({ column }) => `"${column}" is not an audiometric frequency.`,
}

const warnings: { readonly [C in CsvWarning['code']]: (warning: Extract<CsvWarning, { code: C }>) => string } = {
  'unknown-column': ({ column }) => `The column "${column}" is not read.`,
  'unit-assumed': ({ column }) => `"${column}" names no unit: taken as dB HL.`,
  'masking-assumed': () => 'There is no column "masked": every point is taken as not masked.',
  'off-grid': ({ points }) =>
    `${plural(points, 'level lies', 'levels lie')} between the 5 dB steps. Accepted and marked.`,
}

const ofCode = <T extends { code: string }>(sentences: unknown, fact: T): string =>
  (sentences as Record<string, (fact: T) => string>)[fact.code]?.(fact) ?? fact.code

/** The import of hearing tests from a table. */
export const hearingImport = {
  title: 'Import hearing tests',
  text: 'Paste a table, or drop a CSV file here',
  choose: 'Choose a file',
  hint: 'One row a point: ear, route, masked, frequency_hz, level_db_hl, response [, condition, date]. Or one row an ear and route, with a column for each frequency.',
  read: (file: string, encoding: string) => `${file}, read as ${encoding}`,
  date: 'Date of rows without one',
  reason: 'Why earlier current tests no longer count',
  reasonSuggestion: (day: string) => `Superseded by the test of ${day}`,
  fileFault: (fault: FileFault) => ofCode(fileFaults, fault),
  cellFault: (fault: CellFault) => ofCode({ ...pointFaults, ...cellFaults }, fault),
  warning: (warning: CsvWarning) => ofCode(warnings, warning),
  swapped:
    'Right and left may be exchanged: these ears fit the other ears of the current tests far better than their own.',
  swappedCheck: 'I have compared the ears with the source.',
  found: (points: number, rows: number) => `${plural(points, 'point', 'points')} in ${plural(rows, 'row', 'rows')}`,
  faults: (count: number) => plural(count, 'fault', 'faults'),
  row: 'Row',
  column: 'Column',
  problem: 'Fault',
  wholeRow: 'whole row',
  moreFaults: (count: number) => `and ${plural(count, 'more fault', 'more faults')}`,
  preview: 'What will be entered',
  willSupersede: (sentence: string) => `supersedes: ${sentence}`,
  goodRows: (count: number) => `Leave the faulty rows out and import ${plural(count, 'point', 'points')} only`,
  submit: (count: number) => `Import ${plural(count, 'test', 'tests')}`,
  done: (count: number) => `${plural(count, 'test', 'tests')} imported.`,
  nothingYet: 'Nothing to read yet.',
}
