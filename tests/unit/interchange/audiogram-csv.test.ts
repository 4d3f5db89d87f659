import { describe, expect, it } from 'vitest'
import { csvLimits, readAudiogramCsv, testsOf, writeAudiogramCsv } from '../../../lib/interchange/audiogram-csv.ts'
import { decodeText } from '../../../lib/interchange/text-encoding.ts'
import { hearingTest, points } from '../../fixtures/hearing-tests.ts'

const header = 'ear,route,masked,frequency_hz,level_db_hl,response,condition,date'
const long = (...rows: string[]) => readAudiogramCsv([header, ...rows].join('\n'))
const faultsOf = (reading: ReturnType<typeof readAudiogramCsv>) =>
  reading.faults.map(({ row, column, fault }) => `${row} ${column} ${fault.code}`)

describe('the long form', () => {
  it('reads air and bone, masked and not, no response and could not test', () => {
    const reading = long(
      'right,air,no,500,60,heard,unaided,2026-05-02',
      'right,bone,yes,1000,-5,heard,unaided,2026-05-02',
      'right,air,no,8000,100,no-response,unaided,2026-05-02',
      'right,bone,yes,4000,,could-not-test,unaided,2026-05-02',
    )
    expect(reading.faults).toEqual([])
    expect(testsOf(reading.entries, '2026-01-01')).toEqual([
      {
        ear: 'right',
        condition: 'unaided',
        performedOn: '2026-05-02',
        points: {
          'air.unmasked.500': { kind: 'heard', level: 60 },
          'bone.masked.1000': { kind: 'heard', level: -5 },
          'air.unmasked.8000': { kind: 'no-response', limit: 100 },
          'bone.masked.4000': { kind: 'could-not-test' },
        },
      },
    ])
  })

  it.each([
    ['semicolons and decimal commas', 'ear;route;masked;frequency_hz;level_db_hl;response\nleft;air;no;500;42,5;heard'],
    ['tabs', 'ear\troute\tmasked\tfrequency_hz\tlevel_db_hl\tresponse\nleft\tair\tno\t500\t42.5\theard'],
    [
      'quotes',
      '"ear","route","masked","frequency_hz","level_db_hl","response"\n"left","air","no","500","42,5","heard"',
    ],
    [
      'a separator line',
      'sep=;\r\near;route;masked;frequency_hz;level_db_hl;response\r\nleft;air;no;500;42,5;heard\r\n',
    ],
    ['a byte order mark', '\uFEFFear,route,masked,frequency_hz,level_db_hl,response\nleft,air,no,500,42.5,heard'],
    ['a typographic minus', 'ear,route,masked,frequency_hz,level_db_hl,response\nleft,air,no,500,−5,heard'],
  ])('reads %s', (_, text) => {
    const reading = readAudiogramCsv(text)
    expect([...reading.fileFaults, ...reading.faults]).toEqual([])
    expect(reading.entries).toHaveLength(1)
    expect(reading.entries[0]?.ear).toBe('left')
  })

  it('names row and column of each fault', () => {
    const reading = long(
      'middle,air,no,500,60,heard,,',
      'right,skin,no,500,60,heard,,',
      'right,air,maybe,500,60,heard,,',
      'right,air,no,333,60,heard,,',
      'right,air,no,500,loud,heard,,',
      'right,air,no,750,140,heard,,',
      'right,air,no,1000,60,perhaps,,',
      'right,bone,no,1000,60,heard,aided,',
      'right,air,no,1500,60,heard,,31.05.2026',
      'right,air,no,2000,,heard,,',
      'right,air,no,3000,60 dB SPL,heard,,',
      'right,air,no,4000,60,heard,,,surplus',
    )
    expect(faultsOf(reading)).toEqual([
      '2 ear unknown-ear',
      '3 route unknown-route',
      '4 masked unknown-masking',
      '5 frequency_hz unknown-frequency',
      '6 level_db_hl not-a-level',
      '7 level_db_hl level-out-of-range',
      '8 level_db_hl unknown-response',
      '9 condition condition-mismatch',
      '10 date not-a-date',
      '11 level_db_hl no-level',
      '12 level_db_hl wrong-unit',
      '13  extra-cells',
    ])
    expect(reading.entries).toEqual([])
  })

  it('counts rows as a spreadsheet does, empty ones too', () => {
    expect(faultsOf(long('right,air,no,500,60,heard,,', '', ',,,,,,,', 'right,air,no,500,loud,heard,,'))).toEqual([
      '5 level_db_hl not-a-level',
    ])
  })

  it('takes neither of two rows for the same point', () => {
    const reading = long('right,air,no,500,60,heard,,', 'right,air,no,500,65,heard,,', 'right,air,yes,500,65,heard,,')
    expect(faultsOf(reading)).toEqual(['2 frequency_hz duplicate-point', '3 frequency_hz duplicate-point'])
    expect(reading.entries.map(({ row }) => row)).toEqual([4])
  })

  it('keeps the good rows apart from the faulty ones', () => {
    const reading = long('right,air,no,500,60,heard,,', 'right,air,no,1000,999,heard,,')
    expect(reading.entries.map(({ row }) => row)).toEqual([2])
  })

  it('accepts levels between the 5 dB steps and counts them', () => {
    expect(long('right,air,no,500,42.5,heard,,').warnings).toEqual([{ code: 'off-grid', points: 1 }])
  })

  it('takes formulas and markup for text, which no column accepts', () => {
    const reading = long('=HYPERLINK("x"),air,no,500,60,heard,,', 'right,air,no,500,<script>alert(1)</script>,heard,,')
    expect(reading.entries).toEqual([])
    expect(faultsOf(reading)).toEqual(['2 ear unknown-ear', '3 level_db_hl not-a-level'])
  })

  it('says when a quotation mark is never closed', () => {
    const reading = readAudiogramCsv(`${header}\nright,air,no,500,"60,heard,,\nright,air,no,1000,60,heard,,`)
    expect(reading.faults.map(({ fault }) => fault.code)).toContain('open-quote')
    expect(reading.entries).toEqual([])
  })
})

describe('the wide form', () => {
  it('reads a row for each ear and route', () => {
    const reading = readAudiogramCsv(
      'ear,route,masked,date,250 Hz,500,1k,2000,4 kHz,11200\nR,AC,,2026-05-02,10,NR 110,-,CNT,>105,45\nL,BC,masked,2026-05-02,,5,,,,',
    )
    expect(reading.form).toBe('wide')
    expect(reading.faults).toEqual([])
    const [right, left] = testsOf(reading.entries, '2026-01-01')
    expect(right?.points).toEqual({
      'air.unmasked.250': { kind: 'heard', level: 10 },
      'air.unmasked.500': { kind: 'no-response', limit: 110 },
      'air.unmasked.2000': { kind: 'could-not-test' },
      'air.unmasked.4000': { kind: 'no-response', limit: 105 },
      'air.unmasked.11200': { kind: 'heard', level: 45 },
    })
    expect(left?.points).toEqual({ 'bone.masked.500': { kind: 'heard', level: 5 } })
  })

  it('names row and frequency of a fault', () => {
    const reading = readAudiogramCsv('ear,route,masked,500,1000\nright,air,no,60,6o\nright,bone,no,140,NR')
    expect(faultsOf(reading)).toEqual([
      '2 1000 not-a-level',
      '3 500 level-out-of-range',
      '3 1000 no-response-needs-level',
    ])
  })

  it('refuses a column for a frequency that is not on the audiometric list', () => {
    expect(readAudiogramCsv('ear,route,500,512\nright,air,60,60').fileFaults).toEqual([
      { code: 'unknown-frequency-column', column: '512' },
    ])
  })
})

describe('whole files', () => {
  it('names the columns that are missing and those that were found', () => {
    expect(readAudiogramCsv('patient,value\n1,2').fileFaults).toEqual([
      { code: 'missing-column', columns: ['ear', 'route', 'frequency_hz', 'level_db_hl'], found: ['patient', 'value'] },
    ])
  })

  it.each(['level_db_spl', 'Level (dB SPL)', 'threshold_dB_nHL', 'db_sl'])(
    'refuses levels in another unit: %s',
    (title) => {
      const [fault] = readAudiogramCsv(`ear,route,masked,frequency_hz,${title}\nright,air,no,500,60`).fileFaults
      expect(fault).toEqual({ code: 'wrong-unit-column', column: title, expected: 'level_db_hl' })
    },
  )

  it('refuses frequencies titled in kHz instead of guessing', () => {
    const [fault] = readAudiogramCsv('ear,route,masked,frequency_khz,level_db_hl\nright,air,no,0.5,60').fileFaults
    expect(fault).toEqual({ code: 'wrong-unit-column', column: 'frequency_khz', expected: 'frequency_hz' })
  })

  it('refuses 3,000 rows with the limit, and takes as many as the limit allows', () => {
    const rows = (count: number) => [header, ...Array(count).fill('right,air,no,500,60,heard,,')].join('\n')
    expect(readAudiogramCsv(rows(3000)).fileFaults).toEqual([
      { code: 'too-many-rows', rows: 3000, most: csvLimits.rows },
    ])
    expect(readAudiogramCsv(rows(csvLimits.rows)).fileFaults).toEqual([])
    expect(readAudiogramCsv(rows(csvLimits.rows + 1)).fileFaults).toHaveLength(1)
  })

  it('refuses a text that is longer than any audiogram, and shortens a long cell in its fault', () => {
    expect(readAudiogramCsv('x'.repeat(csvLimits.characters + 1)).fileFaults[0]?.code).toBe('too-long')
    const [fault] = long(`right,air,no,500,${'9'.repeat(100_000)},heard,,`).faults
    expect(fault?.fault).toEqual({ code: 'not-a-level', text: `${'9'.repeat(39)}…` })
  })

  it('refuses an empty file and one with a header only', () => {
    for (const text of ['', '\n\n', header]) expect(readAudiogramCsv(text).fileFaults).toEqual([{ code: 'empty' }])
  })

  it('warns of columns that it does not read and of units and masking that it assumes', () => {
    expect(readAudiogramCsv('ear,route,frequency_hz,level,initials\nright,air,500,60,x').warnings).toEqual([
      { code: 'unit-assumed', column: 'level' },
      { code: 'unknown-column', column: 'initials' },
      { code: 'masking-assumed' },
    ])
  })
})

describe('decodeText', () => {
  const text = `${header}\nright,air,no,500,−5,heard,,`
  const utf16 = (littleEndian: boolean, mark: boolean) => {
    const codes = [...(mark ? [0xfeff] : []), ...Array.from(text, (letter) => letter.charCodeAt(0))]
    const bytes = new DataView(new ArrayBuffer(codes.length * 2))
    for (const [index, code] of codes.entries()) bytes.setUint16(index * 2, code, littleEndian)
    return new Uint8Array(bytes.buffer)
  }

  it.each([
    ['UTF-8', new TextEncoder().encode(text), 'utf-8'],
    ['UTF-8 with mark', new TextEncoder().encode(`\uFEFF${text}`), 'utf-8'],
    ['UTF-16 little-endian with mark', utf16(true, true), 'utf-16le'],
    ['UTF-16 big-endian with mark', utf16(false, true), 'utf-16be'],
    ['UTF-16 little-endian without mark', utf16(true, false), 'utf-16le'],
    ['UTF-16 big-endian without mark', utf16(false, false), 'utf-16be'],
  ])('reads %s', (_, bytes, encoding) => {
    expect(decodeText(bytes)).toEqual({ text, encoding })
  })

  it('takes bytes that are not UTF-8 for Windows-1252', () => {
    expect(decodeText(Uint8Array.of(0x72, 0xe9, 0x67))).toEqual({ text: 'rég', encoding: 'windows-1252' })
  })
})

describe('writeAudiogramCsv', () => {
  it('writes one point a row with CRLF, as RFC 4180 has it', () => {
    const test = hearingTest({ points: points({ 'air.unmasked.500': 60, 'bone.masked.1000': { none: 65 } }) })
    expect(writeAudiogramCsv([test])).toBe(
      `${header}\r\nright,air,false,500,60,heard,unaided,2026-03-02\r\nright,bone,true,1000,65,no-response,unaided,2026-03-02\r\n`,
    )
  })
})
