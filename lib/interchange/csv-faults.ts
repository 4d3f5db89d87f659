import type { PointFault } from './point-text.ts'

/** What is wrong with a whole file; nothing of it can be imported. */
export type FileFault =
  | { readonly code: 'empty' }
  | { readonly code: 'too-long'; readonly characters: number; readonly most: number }
  | { readonly code: 'too-many-rows'; readonly rows: number; readonly most: number }
  | { readonly code: 'missing-column'; readonly columns: readonly string[]; readonly found: readonly string[] }
  | { readonly code: 'column-twice'; readonly column: string }
  | { readonly code: 'wrong-unit-column'; readonly column: string; readonly expected: string }
  | { readonly code: 'unknown-frequency-column'; readonly column: string }

/** What is wrong with one cell. */
export type CellFault =
  | PointFault
  | { readonly code: 'unknown-ear' | 'unknown-route' | 'unknown-masking' | 'unknown-response'; readonly text: string }
  | { readonly code: 'unknown-frequency' | 'unknown-condition' | 'not-a-date'; readonly text: string }
  | { readonly code: 'condition-mismatch'; readonly route: string; readonly condition: string }
  | { readonly code: 'no-level' }
  | { readonly code: 'level-with-could-not-test'; readonly text: string }
  | { readonly code: 'duplicate-point'; readonly otherRow: number }
  | { readonly code: 'extra-cells'; readonly cells: number; readonly columns: number }
  | { readonly code: 'open-quote' }

/** A fault of a cell with its place: `row` counts from 1 with the header, as a spreadsheet shows it. */
export interface PlacedFault {
  readonly row: number
  readonly column: string
  readonly fault: CellFault
}

/** What a person should look at before importing, though it can be imported. */
export type CsvWarning =
  | { readonly code: 'unknown-column'; readonly column: string }
  | { readonly code: 'unit-assumed'; readonly column: string }
  | { readonly code: 'masking-assumed' }
  | { readonly code: 'off-grid'; readonly points: number }
