import { describe, expect, it } from 'vitest'
import { airBoneGaps, meanAirBoneGap } from '../../../lib/audiometry/air-bone-gap.ts'
import { typeOfLoss } from '../../../lib/audiometry/type-of-loss.ts'
import { audiogram, type Point } from '../../fixtures/audiograms.ts'

const flat = (level: Point) => audiogram({ 500: level, 1000: level, 2000: level, 4000: level })

describe('air-bone gap', () => {
  it('is at least the limit minus bone when air conduction gave no response', () => {
    const gaps = airBoneGaps({ air: audiogram({ 500: { none: 120 } }), bone: audiogram({ 500: 40 }) })
    expect(gaps.get(500)).toEqual({ kind: 'at-least', value: 80 })
  })

  it('is at most air minus the limit when bone conduction gave no response', () => {
    const gaps = airBoneGaps({ air: audiogram({ 500: 90 }), bone: audiogram({ 500: { none: 60 } }) })
    expect(gaps.get(500)).toEqual({ kind: 'at-most', value: 30 })
  })

  it('is undetermined without any response', () => {
    const gaps = airBoneGaps({ air: audiogram({ 500: { none: 120 } }), bone: audiogram({ 500: { none: 60 } }) })
    expect(gaps.get(500)).toEqual({ kind: 'undetermined' })
  })

  it('is absent at a frequency that one route lacks', () => {
    expect(airBoneGaps({ air: flat(40), bone: audiogram({ 500: 10 }) }).size).toBe(1)
  })

  it('has no mean when a frequency is missing in either route', () => {
    const result = meanAirBoneGap({ air: flat(40), bone: audiogram({ 500: 10, 1000: 10, 2000: 10 }) }, 'pta4-who')
    expect(result.difference).toBeUndefined()
    expect(result.missing).toEqual([4000])
  })

  it('stays negative', () => {
    expect(meanAirBoneGap({ air: flat(10), bone: flat(15) }, 'pta4-who').difference).toEqual({
      kind: 'exact',
      value: -5,
    })
  })
})

describe('type of loss', () => {
  it('is unknown while bone conduction is missing, and none when air conduction is normal', () => {
    expect(typeOfLoss({ air: flat(40), bone: new Map() }, 'set-1')).toMatchObject({
      type: 'unknown',
      unknownBecause: 'bone-missing',
    })
    expect(typeOfLoss({ air: flat(10), bone: new Map() }, 'set-1').type).toBe('none')
  })

  it('is unknown when bone conduction without response leaves the gap open', () => {
    expect(typeOfLoss({ air: flat(100), bone: flat({ none: 60 }) }, 'set-1')).toMatchObject({
      type: 'unknown',
      unknownBecause: 'no-response',
    })
  })

  it('is mixed although air conduction gave no response, when bone shows loss and the gap is large', () => {
    expect(typeOfLoss({ air: flat({ none: 120 }), bone: flat(50) }, 'set-1').type).toBe('mixed')
  })

  it('puts a gap of exactly 15 dB between two thirds on the conductive side', () => {
    const air = audiogram({ 500: 30, 1000: 35, 2000: 35 })
    const bone = audiogram({ 500: 15, 1000: 20, 2000: 20 })
    expect(typeOfLoss({ air, bone }, 'set-2').type).toBe('conductive')
    expect(meanAirBoneGap({ air, bone }, 'pta3').difference).toEqual({ kind: 'exact', value: 15 })
  })
})
