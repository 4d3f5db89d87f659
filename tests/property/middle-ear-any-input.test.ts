import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { EarChange } from '../../lib/devices/ear-changes.ts'
import { createMiddleEar } from '../../lib/middle-ear/drive-change.ts'
import { shownLossDb } from '../../lib/middle-ear/shown-loss.ts'
import { anyChanges, anyDrive, anyFrequency } from '../fixtures/ear-changes.ts'
import { force, sound, stiffened } from '../fixtures/middle-ear.ts'

const middleEar = createMiddleEar()

describe('any changes, drive and frequency', () => {
  it('give numbers, in order, or a reason', () => {
    fc.assert(
      fc.property(anyChanges, anyDrive, anyFrequency, (changes, drive, f) => {
        const change = middleEar.driveChange(changes, drive, f)
        if (change.kind === 'no-drive') return
        const { bestDb, parameterSdDb, contactSdDb, setsDb } = change
        for (const value of [bestDb, parameterSdDb, contactSdDb, setsDb.low, setsDb.high])
          expect(value).toSatisfy(Number.isFinite)
        expect(setsDb.low).toBeLessThanOrEqual(bestDb)
        expect(setsDb.high).toBeGreaterThanOrEqual(bestDb)
        expect(Math.min(parameterSdDb, contactSdDb)).toBeGreaterThanOrEqual(0)
        expect(shownLossDb(bestDb)).toBeGreaterThanOrEqual(0)
        expect(shownLossDb(bestDb)).toBeLessThanOrEqual(60)
      }),
      { numRuns: 2000 },
    )
  })

  it('give the same whatever was asked before', () => {
    fc.assert(
      fc.property(anyChanges, anyDrive, anyFrequency, (changes, drive, f) => {
        const again = createMiddleEar().driveChange([...changes], { ...drive }, f)
        expect(middleEar.driveChange(changes, drive, f)).toEqual(again)
      }),
      { numRuns: 200 },
    )
  })

  it('survive being written down', () => {
    fc.assert(
      fc.property(anyChanges, (changes) => {
        const read = changes.map((change) => EarChange.parse(JSON.parse(JSON.stringify(change))))
        expect(middleEar.driveChange(read, sound, 1000)).toEqual(middleEar.driveChange(changes, sound, 1000))
      }),
      { numRuns: 200 },
    )
  })
})

describe('sound', () => {
  it('loses nothing without a change, and little more than the acoustic route without a chain', () => {
    const none = middleEar.driveChange([], sound, 1000)
    expect(none).toMatchObject({ bestDb: 0, parameterSdDb: 0, setsDb: { low: 0, high: 0 } })
    const apart = middleEar.driveChange([{ kind: 'incus-stapes-apart' }], sound, 1000)
    // 20 log10(f / (1 + f)) with f = 10^(-55/20)
    expect(apart.kind === 'change' && apart.bestDb).toBeCloseTo(-55.015, 3)
  })

  it('is not touched by the contact of an actuator', () => {
    const contact = { kind: 'contact-loss', lossDb: 20, sdDb: 5 } as const
    expect(middleEar.driveChange([contact], sound, 1000)).toMatchObject({ bestDb: 0, contactSdDb: 0 })
  })
})

describe('outside the domain', () => {
  it.each([99.9, 10_001, 0, -1, Number.NaN, Number.POSITIVE_INFINITY])('%d Hz', (f) => {
    expect(() => middleEar.driveChange([], sound, f)).toThrow(RangeError)
    expect(() => middleEar.driveChange([], sound, f)).toThrow(/frequencyHz is .* from 100 to 10000 Hz/)
  })

  it('names the change, its field and its value', () => {
    const changes = [stiffened('malleus', 10), stiffened('incus', 0.5)]
    expect(() => middleEar.driveChange(changes, sound, 1000)).toThrow(/changes\.1\.times is 0\.5, but must be/)
  })

  it('names a drive that there is not', () => {
    const drive = { ...force('malleus'), site: 'skull' as 'malleus' }
    expect(() => middleEar.driveChange([], drive, 1000)).toThrow(/drive\.site is skull/)
  })
})

it('an exploratory assumption is no pathology, and never trusted', () => {
  const axis = { kind: 'incus-axis-compliant', stiffnessNPerM: 1e4 } as const
  expect(middleEar.driveChange([axis], force('incus-body'), 1000)).toMatchObject({ bestDb: 0, confidence: 'low' })
})
