import Papa from 'papaparse'
import { describe, expect, it } from 'vitest'
import { type StatisticsCase, statisticsTables } from '@/lib/interchange/statistics-csv.ts'
import { sampleRecord } from '../../support/sample-records.ts'

const sample = <T>(kind: Parameters<typeof sampleRecord>[0], id: string, more: object = {}): T =>
  ({ ...sampleRecord(kind, id, 'ann'), ...more }) as T
const at = '2026-05-04T10:00:00.000Z'

const records: StatisticsCase = {
  header: [sample('header', 'only', { pseudonym: '=HYPERLINK("x")', operatedOn: '2026-02-01' })],
  plan: [],
  tests: [
    sample('tests', 'before', {
      performedOn: '2026-01-02',
      points: {
        'air.unmasked.500': { kind: 'heard', level: -5 },
        'bone.masked.4000': { kind: 'no-response', limit: 70 },
        'air.unmasked.125': { kind: 'could-not-test' },
      },
    }),
    sample('tests', 'after', {
      condition: 'aided',
      visit: 'visit-1',
      performedOn: '2026-03-13',
      points: { 'aided.unmasked.2000': { kind: 'heard', level: 30 } },
    }),
  ],
  speechTests: [
    sample('speechTests', 'speech-1', { visit: 'visit-1', listName: '@list', noiseLevel: 60 }),
    sample('speechTests', 'wrong', { state: 'entered-in-error', closing: { by: 'ann', at, reason: 'other patient' } }),
  ],
  visits: [
    sample('visits', 'visit-1', {
      occasion: 'first-fitting',
      state: 'held',
      held: { by: 'ann', at, on: '2026-03-13' },
    }),
  ],
  forecasts: [],
  steps: [],
}
const tables = statisticsTables('case-1', records, '2026-02-01')
const rowsOf = (text: string) => Papa.parse<Record<string, string>>(text.trim(), { header: true })

describe('tables for statistics', () => {
  const { data } = rowsOf(tables.thresholds)
  const row = (visit: string, ear: string, frequency: string) =>
    data.find((each) => each.visit === visit && each.ear === ear && each.frequency_hz === frequency)

  it('have one row a case, ear, visit and frequency', () => {
    const keys = data.map(({ case_id, ear, visit, frequency_hz }) => `${case_id} ${ear} ${visit} ${frequency_hz}`)
    expect(new Set(keys).size).toBe(keys.length)
    expect(keys.length).toBe(8 * 4 + 1)
  })

  it('say level, response and masking of each route, in numbers that stay numbers', () => {
    expect(row('before', 'right', '500')).toMatchObject({ air_db_hl: '-5', air_response: 'heard', air_masked: '0' })
    expect(row('before', 'right', '4000')).toMatchObject({
      bone_db_hl: '70',
      bone_response: 'no-response',
      bone_masked: '1',
    })
    expect(row('before', 'right', '125')).toMatchObject({
      air_db_hl: '',
      air_response: 'could-not-test',
      air_masked: '',
    })
    expect(row('first-fitting', 'right', '2000')).toMatchObject({ aided_db_hl: '30', days_after_operation: '40' })
  })

  it('keep 4, 6 and 8 kHz as rows where nothing was measured', () => {
    for (const frequency of ['4000', '6000', '8000'])
      expect(row('first-fitting', 'right', frequency)).toMatchObject({ aided_db_hl: '', aided_response: '' })
  })

  it('give text that a spreadsheet would run an apostrophe', () => {
    expect(data[0]?.case_pseudonym).toBe('\'=HYPERLINK("x")')
    expect(rowsOf(tables.speech).data).toMatchObject([
      { list: "'@list", items: '20', items_right: '13', visit: 'first-fitting' },
    ])
  })

  it('have every column explained in the dictionary, and no other', () => {
    const explained = (file: string) =>
      rowsOf(tables.dictionary)
        .data.filter((each) => each.file === file)
        .map((each) => each.column)
    expect(explained('thresholds.csv')).toEqual(rowsOf(tables.thresholds).meta.fields)
    expect(explained('speech.csv')).toEqual(rowsOf(tables.speech).meta.fields)
    for (const { meaning } of rowsOf(tables.dictionary).data) expect(meaning).not.toBe('')
  })
})
