import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { HearingTest, Point, PointKey } from '../../lib/board/records/hearing-test.ts'
import { parseRecordCode, recordCode } from '../../lib/interchange/record-code.ts'
import { audiometricFrequenciesHz } from '../../lib/units/frequencies.ts'
import { asDbHl } from '../../lib/units/levels.ts'
import { hearingTest } from '../fixtures/hearing-tests.ts'

const level = fc.integer({ min: -4, max: 26 }).map((step) => asDbHl(step * 5))
const point: fc.Arbitrary<Point> = fc.oneof(
  level.map((heard): Point => ({ kind: 'heard', level: heard })),
  level.map((limit): Point => ({ kind: 'no-response', limit })),
  fc.constant<Point>({ kind: 'could-not-test' }),
)
const key: fc.Arbitrary<PointKey> = fc
  .tuple(
    fc.constantFrom('air', 'bone'),
    fc.constantFrom('masked', 'unmasked'),
    fc.constantFrom(...audiometricFrequenciesHz),
  )
  .map((parts) => parts.join('.'))
const pointList = fc.uniqueArray(fc.tuple(key, point), { selector: ([name]) => name, minLength: 1, maxLength: 40 })
const test: fc.Arbitrary<HearingTest> = fc
  .tuple(fc.constantFrom('right' as const, 'left' as const), pointList)
  .map(([ear, entries]) => hearingTest({ ear, points: Object.fromEntries(entries) }))

const characters = '0123456789ABCDEFGHJKMNPQRSTVWXYZ'
const bare = (code: string) => code.replaceAll('-', '')
const isRight = (typed: string) => parseRecordCode(typed).ok

describe('record code', () => {
  it('does not depend on the order in which points were entered', () => {
    fc.assert(
      fc.property(pointList, fc.infiniteStream(fc.nat()), (entries, random) => {
        const shuffled = entries.map((entry) => ({ entry, by: random.next().value as number }))
        shuffled.sort((a, b) => a.by - b.by)
        const other = Object.fromEntries(shuffled.map(({ entry }) => entry))
        expect(recordCode(hearingTest({ points: other }))).toBe(
          recordCode(hearingTest({ points: Object.fromEntries(entries) })),
        )
      }),
    )
  })

  it('changes with any change of a point', () => {
    fc.assert(
      fc.property(test, key, fc.option(point, { nil: undefined }), (before, changed, value) => {
        const { [changed]: old, ...rest } = before.points
        fc.pre(JSON.stringify(old) !== JSON.stringify(value))
        const after = { ...before, points: value === undefined ? rest : { ...rest, [changed]: value } }
        expect(recordCode(after)).not.toBe(recordCode(before))
      }),
      { numRuns: 500 },
    )
  })

  it('is read back as it was written', () => {
    fc.assert(
      fc.property(test, (record) => {
        const code = recordCode(record)
        expect(parseRecordCode(code)).toEqual({ ok: true, code })
      }),
    )
  })

  it('shows every single wrong character', () => {
    fc.assert(
      fc.property(test, (record) => {
        const right = bare(recordCode(record))
        for (let place = 0; place < right.length; place++)
          for (const wrong of characters)
            if (wrong !== right[place])
              expect(isRight(right.slice(0, place) + wrong + right.slice(place + 1))).toBe(false)
      }),
      { numRuns: 20 },
    )
  })

  it('shows every swap of two different characters, neighbours or not', () => {
    fc.assert(
      fc.property(test, (record) => {
        const right = [...bare(recordCode(record))]
        for (let i = 0; i < right.length; i++)
          for (let j = i + 1; j < right.length; j++) {
            if (right[i] === right[j]) continue
            const swapped = right.with(i, right[j] ?? '').with(j, right[i] ?? '')
            expect(isRight(swapped.join(''))).toBe(false)
          }
      }),
    )
  })

  it('answers anything that can be typed with a code or a named problem', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary', maxLength: 40 }), (typed) => {
        const read = parseRecordCode(typed)
        if (read.ok) expect(parseRecordCode(read.code)).toEqual(read)
        else expect(['length', 'character', 'check']).toContain(read.problem)
      }),
    )
  })
})
