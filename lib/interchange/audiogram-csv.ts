import Papa from 'papaparse'
import { CalendarDay } from '../board/identity.ts'
import {
  type HearingTest,
  type Point,
  type PointPlace,
  type PointRoute,
  placeOfPoint,
  pointKey,
  routesOf,
  TestCondition,
} from '../board/records/hearing-test.ts'
import type { Ear } from '../units/frequencies.ts'
import type { DbHl } from '../units/levels.ts'
import { type Columns, type NamedColumn, readColumns, readFrequency } from './csv-columns.ts'
import type { CellFault, CsvWarning, FileFault, PlacedFault } from './csv-faults.ts'
import { excerpt, readPoint } from './point-text.ts'

/** More than any set of audiograms of one case; keeps the preview readable and the page quick. */
export const csvLimits = { rows: 1000, characters: 1_000_000 } as const

/** One point that was read, with the row and column where it stands. */
export interface CsvEntry {
  readonly row: number
  readonly column: string
  readonly ear: Ear
  readonly condition: TestCondition
  /** absent when the file has no date */
  readonly performedOn?: string
  readonly place: PointPlace
  readonly point: Point
  /** air conduction at 1 kHz sought a second time in the same test, dB HL */
  readonly repeatAt1000?: DbHl
}

export interface CsvReading {
  readonly form: 'long' | 'wide'
  readonly rows: number
  /** Nothing is imported while there is one. */
  readonly fileFaults: readonly FileFault[]
  readonly faults: readonly PlacedFault[]
  readonly warnings: readonly CsvWarning[]
  /** The points of all rows without fault. */
  readonly entries: readonly CsvEntry[]
}

/**
 * Reads audiograms from comma-, semicolon- or tab-separated text: the long form
 * `ear,route,masked,frequency_hz,level_db_hl,response[,condition,date]` with one point a row, or the wide form with a
 * row for each ear and route and a column for each frequency. Never throws: every fault is returned with its row and
 * column. Formulas and markup are text like any other and can only be faults.
 */
export function readAudiogramCsv(text: string): CsvReading {
  if (text.length > csvLimits.characters)
    return unreadable(0, { code: 'too-long', characters: text.length, most: csvLimits.characters })
  const { rows, openQuote } = tokenise(text)
  const [titles, ...body] = rows
  if (titles === undefined || body.length === 0) return unreadable(0, { code: 'empty' })
  if (body.length > csvLimits.rows)
    return unreadable(body.length, { code: 'too-many-rows', rows: body.length, most: csvLimits.rows })
  const reading = readColumns(titles.cells)
  if (!reading.ok) return { ...unreadable(body.length), fileFaults: reading.faults }
  return readBody(body, reading.columns, openQuote)
}

const unreadable = (rows: number, ...fileFaults: FileFault[]): CsvReading => ({
  form: 'long',
  rows,
  fileFaults,
  faults: [],
  warnings: [],
  entries: [],
})

interface Row {
  readonly row: number
  readonly cells: readonly string[]
}

function tokenise(text: string): { rows: readonly Row[]; openQuote: number | undefined } {
  const declared = /^\uFEFF?sep=(.)\r?\n/i.exec(text)
  const body = text.slice(declared?.[0].length ?? 0).replace(/^\uFEFF/, '')
  const skipped = declared === null ? 0 : 1
  const parsed = Papa.parse<string[]>(body, { delimiter: declared?.[1] ?? delimiterOf(body) })
  const rows = parsed.data
    .map((cells, index) => ({ row: index + 1 + skipped, cells }))
    .filter(({ cells }) => cells.some((cell) => cell.trim() !== ''))
  const quote = parsed.errors.find(({ type }) => type === 'Quotes')
  return { rows, openQuote: quote === undefined ? undefined : (quote.row ?? 0) + 1 + skipped }
}

/** By the first line, which holds no decimal commas. */
function delimiterOf(text: string): string {
  const [line = ''] = text.trimStart().split(/\r?\n|\r/, 1)
  const count = (delimiter: string) => line.split(delimiter).length
  return ['\t', ';', ','].reduce((best, delimiter) => (count(delimiter) > count(best) ? delimiter : best))
}

function readBody(body: readonly Row[], columns: Columns, openQuote: number | undefined): CsvReading {
  const faults: PlacedFault[] = []
  if (openQuote !== undefined) faults.push({ row: openQuote, column: '', fault: { code: 'open-quote' } })
  const found: CsvEntry[] = []
  for (const row of body) {
    const read = columns.form === 'long' ? readLongRow(row, columns) : readWideRow(row, columns)
    faults.push(...read.faults)
    found.push(...read.entries)
  }
  const duplicates = duplicatesIn(found)
  faults.push(...duplicates)
  const faultyRows = new Set(faults.map(({ row }) => row))
  const entries = found.filter(({ row }) => !faultyRows.has(row))
  return {
    form: columns.form,
    rows: body.length,
    fileFaults: [],
    faults: faults.sort((a, b) => a.row - b.row),
    warnings: [...columns.warnings, ...offGridWarning(entries)],
    entries,
  }
}

interface RowReading {
  readonly entries: readonly CsvEntry[]
  readonly faults: readonly PlacedFault[]
}

/** A cell that was understood, or what is wrong with it. */
type Read<T> = { readonly ok: true; readonly value: T } | { readonly ok: false; readonly fault: CellFault }
const good = <T>(value: T): Read<T> => ({ ok: true, value })
const bad = (fault: CellFault): Read<never> => ({ ok: false, fault })

/** Reads cells of one row by their column and collects the faults with their place. */
class RowReader {
  readonly faults: PlacedFault[] = []
  private readonly row: Row
  private readonly columns: Columns

  constructor(row: Row, columns: Columns) {
    this.row = row
    this.columns = columns
    const { length } = row.cells
    if (row.cells.slice(columns.titles.length).some((cell) => cell.trim() !== ''))
      this.note('', { code: 'extra-cells', cells: length, columns: columns.titles.length })
  }

  text(column: NamedColumn): string {
    const index = this.columns.named.get(column)
    return index === undefined ? '' : this.at(index)
  }

  at(index: number): string {
    return (this.row.cells[index] ?? '').trim()
  }

  read<T>(column: NamedColumn, parse: (text: string) => Read<T>): T | undefined {
    const read = parse(this.text(column))
    if (read.ok) return read.value
    this.note(this.titleOf(column), read.fault)
    return undefined
  }

  note(column: string, fault: CellFault): void {
    this.faults.push({ row: this.row.row, column, fault })
  }

  titleOf(column: NamedColumn): string {
    const index = this.columns.named.get(column)
    return index === undefined ? column : (this.columns.titles[index] ?? column)
  }
}

type RowHead = Pick<CsvEntry, 'ear' | 'condition' | 'performedOn'> & Pick<PointPlace, 'route' | 'masked'>

/** What long and wide rows have in common. */
function readHead(reader: RowReader): RowHead | undefined {
  const ear = reader.read('ear', earOf)
  const route = reader.read('route', routeOf)
  const masked = reader.read('masked', maskedOf)
  const performedOn = reader.read('date', dateOf)
  const condition = reader.read('condition', (text) => conditionOf(text, route))
  reader.read('unit', unitOf)
  if (ear === undefined || route === undefined || masked === undefined || condition === undefined) return undefined
  if (performedOn === undefined) return undefined
  return { ear, route, masked, condition, ...(performedOn === '' ? {} : { performedOn }) }
}

function readLongRow(row: Row, columns: Columns): RowReading {
  const reader = new RowReader(row, columns)
  const head = readHead(reader)
  const frequency = reader.read('frequency_hz', frequencyOf)
  const point = reader.read('level_db_hl', (text) => pointOf(text, reader.text('response')))
  const repeat = reader.read('repeat_1000_db_hl', repeatOf)
  if (head === undefined || frequency === undefined || point === undefined || repeat === undefined)
    return { entries: [], faults: reader.faults }
  const { ear, condition, route, masked, ...date } = head
  const place = { route, masked, frequency }
  const entry = {
    row: row.row,
    column: reader.titleOf('frequency_hz'),
    ear,
    condition,
    ...date,
    place,
    point,
    ...(repeat === 'none' ? {} : { repeatAt1000: repeat }),
  }
  return { entries: [entry], faults: reader.faults }
}

function readWideRow(row: Row, columns: Columns): RowReading {
  const reader = new RowReader(row, columns)
  const head = readHead(reader)
  const entries: CsvEntry[] = []
  for (const { index, hz, title } of columns.frequencies) {
    const text = reader.at(index)
    const reading = isNotTested(text) ? ({ kind: 'nothing' } as const) : readPoint(text)
    if (reading.kind === 'fault') reader.note(title, reading.fault)
    if (reading.kind !== 'point' || head === undefined) continue
    const { ear, condition, route, masked, ...date } = head
    const place = { route, masked, frequency: hz }
    entries.push({ row: row.row, column: title, ear, condition, ...date, place, point: reading.point })
  }
  return { entries, faults: reader.faults }
}

const isNotTested = (text: string): boolean => /^(?:[-–—]|nt|dnt|not tested)$/i.test(text)

const earNames: Readonly<Record<string, Ear>> = {
  right: 'right',
  r: 'right',
  re: 'right',
  left: 'left',
  l: 'left',
  le: 'left',
}
const routeNames: Readonly<Record<string, PointRoute>> = {
  air: 'air',
  ac: 'air',
  'air-conduction': 'air',
  bone: 'bone',
  bc: 'bone',
  'bone-conduction': 'bone',
  'sound-field': 'sound-field',
  sf: 'sound-field',
  aided: 'aided',
}
const maskingNames: Readonly<Record<string, boolean>> = {
  true: true,
  yes: true,
  y: true,
  '1': true,
  masked: true,
  false: false,
  no: false,
  n: false,
  '0': false,
  unmasked: false,
  'not-masked': false,
  '': false,
}

const nameOf = (text: string): string => text.toLowerCase().replaceAll(/[\s_-]+/g, '-')

function named<T>(names: Readonly<Record<string, T>>, text: string): T | undefined {
  return Object.hasOwn(names, nameOf(text)) ? names[nameOf(text)] : undefined
}

function earOf(text: string): Read<Ear> {
  const ear = named(earNames, text)
  return ear === undefined ? bad({ code: 'unknown-ear', text: excerpt(text) }) : good(ear)
}

function routeOf(text: string): Read<PointRoute> {
  const route = named(routeNames, text)
  return route === undefined ? bad({ code: 'unknown-route', text: excerpt(text) }) : good(route)
}

function maskedOf(text: string): Read<boolean> {
  const masked = named(maskingNames, text)
  return masked === undefined ? bad({ code: 'unknown-masking', text: excerpt(text) }) : good(masked)
}

function frequencyOf(text: string) {
  const frequency = readFrequency(text)
  return frequency === undefined ? bad({ code: 'unknown-frequency', text: excerpt(text) }) : good(frequency)
}

/** @returns '' when the file gives no date */
function dateOf(text: string): Read<string> {
  if (text === '') return good('')
  return CalendarDay.safeParse(text).success ? good(text) : bad({ code: 'not-a-date', text: excerpt(text) })
}

const conditionsByRoute: Readonly<Record<PointRoute, TestCondition>> = {
  air: 'unaided',
  bone: 'unaided',
  'sound-field': 'sound-field',
  aided: 'aided',
}

function conditionOf(text: string, route: PointRoute | undefined): Read<TestCondition> {
  if (text === '') return good(route === undefined ? 'unaided' : conditionsByRoute[route])
  const condition = TestCondition.safeParse(nameOf(text))
  if (!condition.success) return bad({ code: 'unknown-condition', text: excerpt(text) })
  const routes: readonly string[] = routesOf[condition.data]
  if (route === undefined || routes.includes(route)) return good(condition.data)
  return bad({ code: 'condition-mismatch', route, condition: condition.data })
}

function unitOf(text: string): Read<''> {
  return text === '' || /^db[ _]?hl$/i.test(text) ? good('') : bad({ code: 'wrong-unit', unit: excerpt(text) })
}

const responses: Readonly<Record<string, Point['kind']>> = {
  heard: 'heard',
  yes: 'heard',
  response: 'heard',
  'no-response': 'no-response',
  nr: 'no-response',
  no: 'no-response',
  'could-not-test': 'could-not-test',
  cnt: 'could-not-test',
}

/** A level cell together with what the response column says about it. */
function pointOf(level: string, response: string): Read<Point> {
  const kind = response === '' ? undefined : named(responses, response)
  if (response !== '' && kind === undefined) return bad({ code: 'unknown-response', text: excerpt(response) })
  if (kind === 'could-not-test')
    return level === '' ? good({ kind }) : bad({ code: 'level-with-could-not-test', text: excerpt(level) })
  const reading = readPoint(level)
  if (reading.kind === 'fault') return bad(reading.fault)
  if (reading.kind === 'nothing') return bad({ code: 'no-level' })
  const { point } = reading
  if (kind === 'no-response' && point.kind === 'heard') return good({ kind, limit: point.level })
  return kind === undefined || kind === point.kind ? good(point) : bad({ code: 'not-a-level', text: excerpt(level) })
}

/** @returns 'none' where the cell is empty */
function repeatOf(text: string): Read<DbHl | 'none'> {
  if (text === '') return good('none')
  const reading = readPoint(text)
  if (reading.kind === 'fault') return bad(reading.fault)
  return reading.kind === 'point' && reading.point.kind === 'heard'
    ? good(reading.point.level)
    : bad({ code: 'not-a-level', text: excerpt(text) })
}

/** Both rows of a pair are faulty: which of the two is meant cannot be known. */
function duplicatesIn(entries: readonly CsvEntry[]): PlacedFault[] {
  const first = new Map<string, CsvEntry>()
  const faults: PlacedFault[] = []
  for (const entry of entries) {
    const key = `${groupOf(entry)} ${pointKey(entry.place)}`
    const other = first.get(key)
    if (other === undefined) first.set(key, entry)
    else faults.push(duplicate(entry, other), duplicate(other, entry))
  }
  return faults
}

const duplicate = ({ row, column }: CsvEntry, other: CsvEntry): PlacedFault => ({
  row,
  column,
  fault: { code: 'duplicate-point', otherRow: other.row },
})

function offGridWarning(entries: readonly CsvEntry[]): CsvWarning[] {
  const points = entries.filter(({ point }) => point.kind === 'heard' && point.level % 5 !== 0).length
  return points === 0 ? [] : [{ code: 'off-grid', points }]
}

/** What an import makes: a test of one ear, condition and day. */
export type ImportedTest = Pick<HearingTest, 'ear' | 'condition' | 'performedOn' | 'points' | 'repeatAt1000'>

const groupOf = ({ ear, condition, performedOn = '' }: CsvEntry): string => `${ear} ${condition} ${performedOn}`

/**
 * The tests that the entries make, the earliest first, so that the latest of an ear and condition ends up current.
 * @param dayWithoutDate calendar day (ISO 8601) of entries without a date of their own
 */
export function testsOf(entries: readonly CsvEntry[], dayWithoutDate: string): ImportedTest[] {
  const tests = new Map<string, ImportedTest & { points: Record<string, Point>; repeatAt1000?: DbHl }>()
  for (const { performedOn = dayWithoutDate, ...entry } of entries) {
    const group = groupOf({ ...entry, performedOn })
    const test = tests.get(group) ?? { ear: entry.ear, condition: entry.condition, performedOn, points: {} }
    tests.set(group, test)
    test.points[pointKey(entry.place)] = entry.point
    if (entry.repeatAt1000 !== undefined && entry.condition === 'unaided') test.repeatAt1000 = entry.repeatAt1000
  }
  return [...tests.values()].sort((a, b) =>
    a.performedOn < b.performedOn ? -1 : a.performedOn > b.performedOn ? 1 : 0,
  )
}

/** Writes tests in the long form, comma-separated, that `readAudiogramCsv` reads back without loss. */
export function writeAudiogramCsv(tests: readonly ImportedTest[]): string {
  const hasRepeat = tests.some(({ repeatAt1000 }) => repeatAt1000 !== undefined)
  const fields = ['ear', 'route', 'masked', 'frequency_hz', 'level_db_hl', 'response', 'condition', 'date']
  if (hasRepeat) fields.push('repeat_1000_db_hl')
  const data = tests.flatMap(({ ear, condition, performedOn, points, repeatAt1000 }) =>
    Object.entries(points).map(([key, point]) => {
      const { route, masked, frequency } = placeOfPoint(key)
      const level = point.kind === 'heard' ? point.level : point.kind === 'no-response' ? point.limit : ''
      const row = [ear, route, masked, frequency, level, point.kind, condition, performedOn]
      return hasRepeat ? [...row, repeatAt1000 ?? ''] : row
    }),
  )
  return `${Papa.unparse({ fields, data }, { newline: '\r\n' })}\r\n`
}
