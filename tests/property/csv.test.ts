import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { type Point, pointKey, routesOf, TestCondition } from '../../lib/board/records/hearing-test.ts'
import { type ImportedTest, readAudiogramCsv, testsOf, writeAudiogramCsv } from '../../lib/interchange/audiogram-csv.ts'
import { readPoint, writePoint } from '../../lib/interchange/point-text.ts'
import { decodeText } from '../../lib/interchange/text-encoding.ts'
import { audiometricFrequenciesHz, Ear } from '../../lib/units/frequencies.ts'
import { asDbHl } from '../../lib/units/levels.ts'

const level = fc.integer({ min: -200, max: 1300 }).map((tenths) => asDbHl(tenths / 10))
const point: fc.Arbitrary<Point> = fc.oneof(
  level.map((level): Point => ({ kind: 'heard', level: asDbHl(level + 0) })),
  level.map((limit): Point => ({ kind: 'no-response', limit: asDbHl(limit + 0) })),
  fc.constant<Point>({ kind: 'could-not-test' }),
)

const pointsFor = (condition: TestCondition) =>
  fc.dictionary(
    fc
      .record({
        route: fc.constantFrom(...routesOf[condition]),
        masked: fc.boolean(),
        frequency: fc.constantFrom(...audiometricFrequenciesHz),
      })
      .map(pointKey),
    point,
    { minKeys: 1, noNullPrototype: true },
  )

const oneTest: fc.Arbitrary<ImportedTest> = fc.constantFrom(...TestCondition.options).chain((condition) =>
  fc.record({
    ear: fc.constantFrom(...Ear.options),
    condition: fc.constant(condition),
    performedOn: fc
      .integer({ min: 0, max: 20_000 })
      .map((day) => new Date(day * 86_400_000).toISOString().slice(0, 10)),
    points: pointsFor(condition),
    ...(condition === 'unaided' ? { repeatAt1000: fc.option(level, { nil: undefined }) } : {}),
  }),
)
const identity = ({ ear, condition, performedOn }: ImportedTest) => `${ear} ${condition} ${performedOn}`
const tests = fc.uniqueArray(oneTest, { selector: identity, minLength: 1, maxLength: 4 })
const inOrder = (list: readonly ImportedTest[]) => list.toSorted((a, b) => (identity(a) < identity(b) ? -1 : 1))

describe('audiograms as CSV', () => {
  it('the import of an export is the same', () => {
    fc.assert(
      fc.property(tests, (exported) => {
        const reading = readAudiogramCsv(writeAudiogramCsv(exported))
        expect([...reading.fileFaults, ...reading.faults]).toEqual([])
        expect(inOrder(testsOf(reading.entries, '1999-01-01'))).toEqual(inOrder(exported))
      }),
    )
  })

  it('any text is read without throwing, and every row is either read or faulted', () => {
    const cell = fc.oneof(fc.string(), fc.constantFrom('right', 'air', '500', '60', '"', '=1+1', '<b>', 'NR', '', '-'))
    const table = fc.array(fc.array(cell, { maxLength: 8 }), { maxLength: 12 })
    const text = fc.oneof(
      fc.string({ unit: 'binary', maxLength: 400 }),
      table.map((rows) => rows.map((cells) => cells.join(',')).join('\n')),
      table.map((rows) =>
        ['ear,route,masked,frequency_hz,level_db_hl', ...rows.map((cells) => cells.join(','))].join('\n'),
      ),
    )
    fc.assert(
      fc.property(text, (text) => {
        const { entries, faults } = readAudiogramCsv(text)
        const faulty = new Set(faults.map(({ row }) => row))
        expect(entries.every(({ row }) => !faulty.has(row))).toBe(true)
      }),
    )
  })

  it('any bytes are decoded without throwing', () => {
    fc.assert(
      fc.property(fc.uint8Array(), (bytes) => {
        expect(typeof readAudiogramCsv(decodeText(bytes).text).rows).toBe('number')
      }),
    )
  })

  it('a point that was written is read back, and reading any text never throws', () => {
    fc.assert(
      fc.property(point, fc.string(), (point, text) => {
        expect(readPoint(writePoint(point))).toEqual({ kind: 'point', point })
        expect(['nothing', 'point', 'fault']).toContain(readPoint(text).kind)
      }),
    )
  })
})
