import { describe, expect, it } from 'vitest'
import { changeBy } from '../../../lib/audiometry/change-criteria.ts'
import { effectiveGain } from '../../../lib/audiometry/gains.ts'
import { gapBin, gapClosure } from '../../../lib/audiometry/gap-closure.ts'
import {
  judgeChange,
  repeatability,
  repeatabilityOfGap,
  repeatabilityOfMean,
  thresholdChanges,
} from '../../../lib/audiometry/test-retest.ts'
import { asDbGain } from '../../../lib/units/levels.ts'
import { audiogram, type Point } from '../../fixtures/audiograms.ts'

const flat = (level: Point) => audiogram({ 500: level, 1000: level, 2000: level, 3000: level, 4000: level })

describe('gain over the high frequencies', () => {
  it('points out that bone conduction lacks 6 and 8 kHz', () => {
    const aided = audiogram({ 4000: 30, 6000: 40, 8000: 45 })
    const high = effectiveGain({ bone: audiogram({ 4000: 25 }), aided }).means.find(({ set }) => set === 'band-high')
    expect(high?.difference).toBeUndefined()
    expect(high?.missing).toEqual([6000, 8000])
    expect(high?.subtrahend.missing).toEqual([])
  })
})

describe('gap closure with no response', () => {
  it('leaves the bin open when more than one is possible', () => {
    expect(gapBin({ kind: 'at-least', value: asDbGain(25) })).toBeUndefined()
    expect(gapBin({ kind: 'at-least', value: asDbGain(31) })).toBe('> 30')
    expect(gapBin({ kind: 'at-most', value: asDbGain(8) })).toBe('<= 10')
    expect(gapBin({ kind: 'undetermined' })).toBeUndefined()
  })

  it('is undetermined rather than NaN when both gaps are open on the same side', () => {
    const ear = { air: flat({ none: 120 }), bone: flat(20) }
    expect(gapClosure({ before: ear, after: ear }).closure).toEqual({ kind: 'undetermined' })
  })
})

describe('a change against test-retest error', () => {
  it('is worse when a heard tone is no longer heard 20 dB higher', () => {
    const [change] = thresholdChanges('air', {
      before: audiogram({ 1000: 90 }),
      after: audiogram({ 1000: { none: 110 } }),
    })
    expect(change?.verdict).toBe('worse')
  })

  it('cannot be told when neither test found a response', () => {
    const dead = audiogram({ 1000: { none: 110 } })
    expect(thresholdChanges('air', { before: dead, after: dead })[0]?.verdict).toBe('cannot tell')
  })

  it('of a mean is told from less than that of one threshold', () => {
    const four = ([500, 1000, 2000, 4000] as const).map((frequency) => ({ route: 'air' as const, frequency }))
    expect(repeatabilityOfMean(four).chanceRange).toBeCloseTo(repeatability('air', 1000).chanceRange / 2, 12)
    expect(judgeChange({ low: 5, high: 5 }, repeatabilityOfMean(four))).toBe('worse')
    expect(repeatabilityOfGap(four, four).standardUncertainty).toBeCloseTo(1.25 * Math.SQRT2, 12)
  })

  it('refuses an empty list of points', () => {
    expect(() => repeatabilityOfMean([])).toThrow('points is empty, but must be at least one measured point')
  })
})

describe('a change criterion with frequencies missing', () => {
  it('is met by what is there, and never denied by what is not', () => {
    const before = audiogram({ 500: 20, 1000: 20 })
    const result = (after: number) =>
      changeBy({ audiograms: { before, after: audiogram({ 1000: after }) } }, 'three-two-one')
    expect(result(40).worse).toBe(true)
    expect(result(20).worse).toBeUndefined()
    expect(result(20).missing).toEqual([500])
  })
})
