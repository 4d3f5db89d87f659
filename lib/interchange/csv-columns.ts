import { type FrequencyHz, isFrequencyHz } from '../units/frequencies.ts'
import type { CsvWarning, FileFault } from './csv-faults.ts'

/** Columns of the long form (one point a row) and those that describe a row of the wide form. */
export type NamedColumn =
  | 'ear'
  | 'route'
  | 'masked'
  | 'frequency_hz'
  | 'level_db_hl'
  | 'response'
  | 'condition'
  | 'date'
  | 'unit'
  | 'repeat_1000_db_hl'

export interface Columns {
  readonly form: 'long' | 'wide'
  readonly named: ReadonlyMap<NamedColumn, number>
  /** frequency columns of the wide form */
  readonly frequencies: readonly { readonly index: number; readonly hz: FrequencyHz; readonly title: string }[]
  readonly titles: readonly string[]
  readonly warnings: readonly CsvWarning[]
}

const aliases: Readonly<Record<string, NamedColumn>> = {
  ear: 'ear',
  side: 'ear',
  route: 'route',
  conduction: 'route',
  masked: 'masked',
  masking: 'masked',
  frequency_hz: 'frequency_hz',
  frequency: 'frequency_hz',
  freq: 'frequency_hz',
  freq_hz: 'frequency_hz',
  hz: 'frequency_hz',
  level_db_hl: 'level_db_hl',
  level_dbhl: 'level_db_hl',
  threshold_db_hl: 'level_db_hl',
  threshold_dbhl: 'level_db_hl',
  db_hl: 'level_db_hl',
  dbhl: 'level_db_hl',
  level: 'level_db_hl',
  level_db: 'level_db_hl',
  threshold: 'level_db_hl',
  threshold_db: 'level_db_hl',
  response: 'response',
  condition: 'condition',
  date: 'date',
  performed_on: 'date',
  unit: 'unit',
  units: 'unit',
  repeat_1000_db_hl: 'repeat_1000_db_hl',
}
/** Titles that name a level without saying dB HL. */
const withoutUnit: readonly string[] = ['level', 'level_db', 'threshold', 'threshold_db']

type ColumnsReading =
  | { readonly ok: true; readonly columns: Columns }
  | { readonly ok: false; readonly faults: readonly FileFault[] }

/** Finds out from the first row which form the file has and what stands in which column. */
export function readColumns(titles: readonly string[]): ColumnsReading {
  const named = new Map<NamedColumn, number>()
  const frequencies: Columns['frequencies'][number][] = []
  const faults: FileFault[] = []
  const warnings: CsvWarning[] = []
  for (const [index, title] of titles.entries()) {
    const name = aliases[plain(title)]
    const hz = name === undefined ? readFrequency(title) : undefined
    if (name !== undefined) {
      if (named.has(name)) faults.push({ code: 'column-twice', column: title })
      named.set(name, index)
      if (withoutUnit.includes(plain(title))) warnings.push({ code: 'unit-assumed', column: title })
    } else if (hz !== undefined) frequencies.push({ index, hz, title })
    else faults.push(...faultOfTitle(title))
    if (name === undefined && hz === undefined && title.trim() !== '')
      warnings.push({ code: 'unknown-column', column: title })
  }
  for (const { hz, title } of frequencies.slice(1))
    if (frequencies.find((column) => column.hz === hz)?.title !== title)
      faults.push({ code: 'column-twice', column: title })
  const form = frequencies.length > 0 && !named.has('frequency_hz') ? 'wide' : 'long'
  const required: readonly NamedColumn[] =
    form === 'wide' ? ['ear', 'route'] : ['ear', 'route', 'frequency_hz', 'level_db_hl']
  const missing = required.filter((column) => !named.has(column))
  if (missing.length > 0) faults.push({ code: 'missing-column', columns: missing, found: titles })
  if (faults.length > 0) return { ok: false, faults }
  if (!named.has('masked')) warnings.push({ code: 'masking-assumed' })
  return { ok: true, columns: { form, named, frequencies, titles, warnings } }
}

const plain = (title: string): string =>
  title
    .trim()
    .toLowerCase()
    .replaceAll(/[^\p{L}\p{N}]+/gu, '_')
    .replaceAll(/^_|_$/g, '')

/** Titles that look like a level or a frequency in another unit would be read wrongly if they were passed over. */
function faultOfTitle(title: string): FileFault[] {
  const name = plain(title)
  if (/^(?:level|threshold)|(?:^|_)d?b(?:_|spl|nhl|sl|v)/.test(name))
    return [{ code: 'wrong-unit-column', column: title, expected: 'level_db_hl' }]
  if (/^freq\p{L}*_|khz/u.test(name)) return [{ code: 'wrong-unit-column', column: title, expected: 'frequency_hz' }]
  if (/^\d/.test(name)) return [{ code: 'unknown-frequency-column', column: title }]
  return []
}

/** A frequency of the audiometric list from `500`, `500 Hz`, `0,5 kHz`, `11.2k`; undefined for anything else. */
export function readFrequency(text: string): FrequencyHz | undefined {
  const parts = /^(\d{1,5}(?:[.,]\d{1,3})?)\s*(hz|k|khz)?$/i.exec(text.trim())
  if (parts === null) return undefined
  const factor = parts[2]?.toLowerCase().startsWith('k') ? 1000 : 1
  const hz = Math.round(Number((parts[1] ?? '').replace(',', '.')) * factor * 1000) / 1000
  return isFrequencyHz(hz) ? hz : undefined
}
