import { describe, expect, it } from 'vitest'
import { sortedTests } from '../../../app/handout/handout-order.ts'
import { calendarDayOf } from '../../../app/messages/moments.ts'
import { elapsed, frequencyOf } from '../../../app/screen/formats.ts'
import { measureText } from '../../../app/screen/measure-text.ts'
import { testMeasures } from '../../../app/screen/test-measures.ts'
import { hearingTest, points } from '../../fixtures/hearing-tests.ts'
import { messages } from '../../support/messages.ts'

const closing = { by: 'p-2', at: '2026-03-04T10:00:00.000Z', reason: 'retested' }
const aided = { condition: 'aided', points: {} } as const
const ids = (tests: readonly { id: string }[]) => tests.map(({ id }) => id)

describe('the order of the handout', () => {
  it('puts current tests first, right ear before left, earphones before device; the rest newest first', () => {
    const { current, former } = sortedTests([
      hearingTest({ id: 'left', ear: 'left' }),
      hearingTest({ id: 'error', state: 'entered-in-error', closing, performedOn: '2026-03-01' }),
      hearingTest({ id: 'right-aided', ...aided }),
      hearingTest({ id: 'older', state: 'superseded', closing, performedOn: '2024-01-01' }),
      hearingTest({ id: 'old', state: 'superseded', closing, performedOn: '2025-01-01' }),
      hearingTest({ id: 'right' }),
    ])
    expect(ids(current)).toEqual(['right', 'right-aided', 'left'])
    expect(ids(former)).toEqual(['old', 'older', 'error'])
  })
})

describe('the measures in words', () => {
  const inWords = (of: ReturnType<typeof hearingTest>) =>
    testMeasures(of).map((measure) => {
      const { name, value } = measureText(measure, messages)
      return `${name}: ${value}`
    })
  const air = { 'air.unmasked.500': 60, 'air.unmasked.1000': 60, 'air.unmasked.2000': 70 } as const
  const bone = {
    'bone.masked.500': 20,
    'bone.masked.1000': 20,
    'bone.masked.2000': 30,
    'bone.masked.4000': 30,
  } as const

  it('are means, gap and type of a test with both routes', () => {
    expect(inWords(hearingTest({ points: points({ ...air, 'air.unmasked.4000': 70, ...bone }) }))).toEqual([
      'Mean air conduction: 65 dB HL',
      'Mean bone conduction: 25 dB HL',
      'Mean air-bone gap: 40 dB',
      'Type of loss: Mixed',
    ])
  })

  it('say "at least" when a threshold is beyond the limit of the audiometer', () => {
    expect(inWords(hearingTest({ points: points({ ...air, 'air.unmasked.4000': { none: 100 } }) }))).toEqual([
      'Mean air conduction: ≥ 72.5 dB HL',
    ])
  })

  it('name what is missing instead of a mean over fewer frequencies', () => {
    expect(inWords(hearingTest({ points: points(air) }))).toEqual(['Mean air conduction: not measured: 4 kHz'])
  })

  it('carry the convention with its source', () => {
    const [measure] = testMeasures(hearingTest({ points: points(air) }))
    expect(measure && measureText(measure, messages).convention).toContain('WHO, World Report on Hearing, 2021')
  })
})

describe('times and frequencies in words', () => {
  it('keep a calendar day whatever the time zone of the reader', () => {
    expect(calendarDayOf('2026-03-02')).toBe('2 Mar 2026')
  })

  it('count whole minutes and never below nothing', () => {
    const words = messages.screens.screen
    const from = '2026-03-02T10:00:00Z'
    expect(elapsed(from, new Date('2026-03-02T10:59:59Z'), words)).toBe('59 min')
    expect(elapsed(from, new Date('2026-03-02T11:05:00Z'), words)).toBe('1 h 05 min')
    expect(elapsed(from, new Date('2026-03-02T09:00:00Z'), words)).toBe('0 min')
  })

  it('change from hertz to kilohertz at 1 kHz', () => {
    expect([750, 1000, 1500, 11_200].map((hz) => frequencyOf(hz, 'en'))).toEqual([
      '750 Hz',
      '1 kHz',
      '1.5 kHz',
      '11.2 kHz',
    ])
  })
})
