import { describe, expect, it } from 'vitest'
import { type CaseReport, caseReport } from '../../../lib/report/case-report.ts'
import { publicationTable } from '../../../lib/report/publication-csv.ts'
import type { ReportMeasure, ReportRow, ReportStandard } from '../../../lib/report/report-rows.ts'
import { hearingTest, points } from '../../fixtures/hearing-tests.ts'
import { after, aided, before, reportRecords } from '../../fixtures/report-case.ts'
import { speechTest } from '../../fixtures/speech-tests.ts'
import { heldVisit } from '../../fixtures/visits.ts'

const rowOf = (report: CaseReport, standard: ReportStandard, measure: ReportMeasure, hz?: number): ReportRow => {
  const found = report.ears[0]?.publicationRows.find(
    (row) =>
      row.standard === standard &&
      row.measure === measure &&
      (hz === undefined || row.frequencies.includes(hz as never)),
  )
  if (found === undefined) throw new RangeError(`no row ${standard} ${measure}`)
  return found
}
const exact = (value: number) => ({ kind: 'difference', difference: { kind: 'exact', value } })
const level = (value: number) => ({ kind: 'level', value, censored: false })

describe('the report of a case', () => {
  const report = caseReport(reportRecords(), { ears: 'operated' })

  it('reports averages, gap and closure by AAO-HNS 1995, each gap of its own date', () => {
    expect(rowOf(report, 'aao-1995', 'air-average')).toMatchObject({
      before: level(57.5),
      after: level(30),
      change: exact(27.5),
    })
    expect(rowOf(report, 'aao-1995', 'air-bone-gap')).toMatchObject({
      before: exact(33.75),
      after: exact(10),
      change: exact(23.75),
    })
    expect(rowOf(report, 'aao-1995', 'gap-bin')).toMatchObject({
      before: { kind: 'bin', bin: '> 30' },
      after: { kind: 'bin', bin: '<= 10' },
    })
  })

  it('holds aided thresholds against the bone conduction of the visit, and says where an input is of another occasion', () => {
    const gain = rowOf(report, 'implants', 'effective-gain', 4000)
    expect(gain).toMatchObject({ after: exact((-15 - 15 - 5 + 5) / 4), notes: [] })
    expect(rowOf(report, 'implants', 'functional-gain', 4000)).toMatchObject({
      after: exact(60 - 30),
      notes: ['earphone-for-sound-field'],
    })
    const withoutBone = hearingTest({ ...after, points: points({ 'air.unmasked.500': 30 }) })
    const other = caseReport(reportRecords({ tests: [before, withoutBone, aided] }), { ears: 'operated' })
    expect(rowOf(other, 'implants', 'effective-gain', 4000).notes).toEqual(['bone-from-before'])
  })

  it('cites the 2018 standards for active middle-ear implants alone', () => {
    expect(rowOf(report, 'implants', 'aided-average').provenance.source).not.toContain('2018')
    const plan = { deviceClass: 'active-middle-ear-implant' } as never
    const implant = caseReport(reportRecords({ plan }), { ears: 'operated' })
    expect(rowOf(implant, 'implants', 'aided-average').provenance.source).toContain('2018')
  })

  it('always has 4, 6 and 8 kHz, and names what was not measured', () => {
    expect(rowOf(report, 'high-frequency', 'air-at', 4000)).toMatchObject({
      before: level(65),
      after: level(50),
      change: exact(15),
    })
    expect(rowOf(report, 'high-frequency', 'air-at', 6000)).toMatchObject({
      before: { kind: 'missing', frequencies: [6000] },
      after: level(60),
      change: { kind: 'missing', frequencies: [6000] },
    })
    expect(rowOf(report, 'high-frequency', 'high-average')).toMatchObject({
      before: { kind: 'missing', frequencies: [6000, 8000] },
      after: { kind: 'missing', frequencies: [8000] },
    })
  })

  it('has the same rows without an outcome, each saying so', () => {
    const planned = caseReport(reportRecords({ visits: [], operatedOn: undefined }), { ears: 'operated' })
    expect(planned.visit).toBeUndefined()
    const rows = planned.ears[0]?.publicationRows ?? []
    expect(rows.map(({ measure }) => measure)).toEqual(report.ears[0]?.publicationRows.map(({ measure }) => measure))
    expect(rows.every((row) => row.after?.kind === 'absent' && row.after.why === 'no-outcome')).toBe(true)
  })

  it('takes the chosen visit, or else the last one held', () => {
    const second = heldVisit('v-2', '2026-09-10')
    const worse = hearingTest({
      ...after,
      id: 'later',
      visit: 'v-2',
      performedOn: '2026-09-10',
      points: points({ 'air.unmasked.4000': 70 }),
    })
    const records = reportRecords({ visits: [second, ...reportRecords().visits], tests: [before, after, aided, worse] })
    expect(caseReport(records, { ears: 'operated' }).visit?.id).toBe('v-2')
    const chosen = caseReport(records, { visit: 'v-1', ears: 'operated' })
    expect(chosen.daysSinceOperation).toBe(92)
    expect(rowOf(chosen, 'high-frequency', 'air-at', 4000).after).toEqual(level(50))
    expect(rowOf(caseReport(records, { ears: 'operated' }), 'high-frequency', 'air-at', 4000).after).toEqual(level(70))
  })

  it('puts the other ear beside the operated one when both are asked for', () => {
    const left = hearingTest({ ...before, id: 'left', ear: 'left' })
    const both = caseReport(reportRecords({ tests: [left, before, after, aided] }), { ears: 'both' })
    expect(both.ears.map(({ ear, isOperated }) => [ear, isOperated])).toEqual([
      ['right', true],
      ['left', false],
    ])
    expect(both.ears[1]?.publicationRows[0]).toMatchObject({ before: level(57.5), after: { kind: 'missing' } })
  })
})

describe('word recognition', () => {
  const then = speechTest({ id: 's-before' })
  const now = speechTest({ id: 's-after', visit: 'v-1', performedOn: '2026-06-10', right: 18 })

  it('gives the scattergram its cells and a change in points', () => {
    const report = caseReport(reportRecords({ speechTests: [then, now] }), { ears: 'operated' })
    expect(rowOf(report, 'gurgel-2012', 'word-recognition')).toMatchObject({
      before: { kind: 'score', right: 13, items: 20 },
      change: { kind: 'points', points: 25 },
    })
    expect(rowOf(report, 'gurgel-2012', 'scattergram-cell')).toMatchObject({
      before: { kind: 'cell', cell: { averageAbove: 50, averageTo: 60, scoreAbove: 60, scoreTo: 70 } },
      after: { kind: 'cell', cell: { averageAbove: 20, averageTo: 30, scoreAbove: 80, scoreTo: 90 } },
    })
  })

  it('is not subtracted between two levels, and counts no test entered in error', () => {
    const louder = { ...now, speechLevel: 80 as never }
    const report = caseReport(reportRecords({ speechTests: [then, louder] }), { ears: 'operated' })
    expect(rowOf(report, 'gurgel-2012', 'word-recognition').change).toEqual({ kind: 'absent', why: 'another-level' })
    const closing = { by: 'p-1', at: '2026-06-11T09:00:00.000Z', reason: 'wrong list' }
    const wrong = { ...now, state: 'entered-in-error' as const, closing }
    const without = caseReport(reportRecords({ speechTests: [then, wrong] }), { ears: 'operated' })
    expect(rowOf(without, 'gurgel-2012', 'word-recognition').after).toEqual({ kind: 'absent', why: 'no-test' })
  })
})

describe('the publication table as text', () => {
  const report = caseReport(reportRecords(), { ears: 'operated' })
  const [head = '', ...lines] = publicationTable(report, '\t').split('\r\n')
  const columns = head.split('\t')
  const cell = (line: string, name: string) => line.split('\t')[columns.indexOf(name)]

  it('has a line an ear and row, with numbers apart from how they are to be read', () => {
    expect(lines).toHaveLength(report.ears[0]?.publicationRows.length ?? 0)
    const gap = lines.find((line) => cell(line, 'measure') === 'air-bone-gap') ?? ''
    expect(['before', 'after', 'change', 'change_status'].map((name) => cell(gap, name))).toEqual([
      '33.75',
      '10',
      '23.75',
      'exact',
    ])
    const eight =
      lines.find((line) => cell(line, 'measure') === 'air-at' && cell(line, 'frequencies_hz') === '8000') ?? ''
    expect(['after', 'after_status'].map((name) => cell(eight, name))).toEqual(['', 'not-measured 8000'])
  })

  it('names source and status of every line', () => {
    for (const line of lines) {
      expect(cell(line, 'source')).not.toBe('')
      expect(cell(line, 'source_status')).toMatch(/^(confirmed|from memory, unconfirmed|common practice, no source)$/)
    }
  })

  it('quotes for a file with commas', () => {
    expect(publicationTable(report, ',').split('\r\n')[0]).toBe(columns.join(','))
  })
})
