// Laws that any passive network of the middle ear obeys, each at many frequencies and for many ears.
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { ActuatorSite } from '../../lib/devices/drives.ts'
import { changedEar } from '../../lib/middle-ear/changed-ear.ts'
import { decibels, magnitude, multiply, phaseDegrees, scale, subtract } from '../../lib/middle-ear/complex.ts'
import { me1 } from '../../lib/middle-ear/me-1.ts'
import { me1Values } from '../../lib/middle-ear/me-1-values.ts'
import { seenAlong } from '../../lib/middle-ear/mobility.ts'
import { impedanceMatrix } from '../../lib/middle-ear/network.ts'
import { velocityAlong } from '../../lib/middle-ear/response.ts'
import { anyChanges, anyFrequency } from '../fixtures/ear-changes.ts'
import { everyDrive, force, relativeError, responseIn, sound, speedOf, velocityOf } from '../fixtures/middle-ear.ts'

const sites = ActuatorSite.options
const unit = (point: number) => Array.from({ length: point + 1 }, (_, at) => (at === point ? 1 : 0))

describe('stiffness and mass', () => {
  it.each(everyDrive)('below resonance the stapes rises 6 dB an octave and leads by 90 degrees: %o', (drive) => {
    const slope = decibels(speedOf('stapes', drive, 300) / speedOf('stapes', drive, 100)) / Math.log2(3)
    expect(Math.abs(slope - 6)).toBeLessThanOrEqual(0.5)
    const lead = drive.by === 'actuator' && drive.site === 'round-window' ? -90 : 90
    expect(Math.abs(phaseDegrees(velocityOf('stapes', drive, 0.01)) - lead)).toBeLessThan(0.1)
  })

  it('far above hearing a stapes force meets a mass, and sound at least two more', () => {
    const slope = (drive: typeof sound, from: number) =>
      decibels(speedOf('stapes', drive, 2 * from) / speedOf('stapes', drive, from))
    expect(Math.abs(slope(force('stapes-head'), 200_000) + 6)).toBeLessThanOrEqual(0.5)
    for (const from of [20_000, 50_000, 100_000, 200_000]) expect(slope(sound, from)).toBeLessThanOrEqual(-12)
  })
})

describe('reciprocity', () => {
  const pairs = sites.flatMap((from) => sites.map((to) => ({ from, to })))
  const direction = (site: ActuatorSite) => me1.sites[site] ?? []

  it.each(pairs)('$from to $to and back', ({ from, to }) => {
    for (const f of [100, 400, 1000, 3000, 10_000]) {
      const there = velocityAlong(responseIn(force(from), f), direction(to))
      const back = velocityAlong(responseIn(force(to), f), direction(from))
      expect(relativeError(there, back)).toBeLessThan(1e-9)
    }
  })

  it('the stapes for sound is the eardrum for a stapes force', () => {
    for (const f of [100, 1000, 10_000]) {
      const eardrumFlow = scale(velocityOf('eardrum', force('stapes-head'), f), me1Values.A_TM.value)
      expect(relativeError(velocityOf('stapes', sound, f), eardrumFlow)).toBeLessThan(1e-9)
    }
  })

  it('holds in every changed ear', () => {
    fc.assert(
      fc.property(anyChanges, anyFrequency, (changes, f) => {
        const { mobility } = responseIn(sound, f, changes)
        const { size } = mobility
        const entry = (row: number, column: number) => seenAlong(mobility, unit(row), unit(column))
        for (let row = 0; row < size; row++)
          for (let column = 0; column < row; column++) {
            const own = Math.sqrt(magnitude(entry(row, row)) * magnitude(entry(column, column)))
            expect(magnitude(subtract(entry(row, column), entry(column, row)))).toBeLessThanOrEqual(1e-9 * own)
          }
      }),
      { numRuns: 200 },
    )
  })
})

describe('passivity', () => {
  it('the resistances of every changed ear take energy from any motion', () => {
    const anyMotion = fc.array(fc.double({ min: -1, max: 1, noNaN: true }), { minLength: 6, maxLength: 6 })
    fc.assert(
      fc.property(anyChanges, anyFrequency, anyMotion, (changes, f, motion) => {
        const ear = changedEar(me1, changes)
        const matrix = impedanceMatrix(ear, me1.acousticsAt(f, ear.cavity), f, [])
        expect(seenAlong(matrix, motion, motion).re).toBeGreaterThanOrEqual(0)
      }),
      { numRuns: 200 },
    )
  })

  it('the cochlea never gets more power than the drive gives', () => {
    fc.assert(
      fc.property(anyFrequency, fc.constantFrom(...everyDrive), (f, drive) => {
        const response = responseIn(drive, f)
        const { force: given, along } = response.source
        const atSource = velocityAlong(response, along)
        const supplied = multiply(given, { re: atSource.re, im: -atSource.im }).re / 2
        const taken = (me1Values.A_FP.value ** 2 * me1Values.R_D.value * magnitude(response.outlet) ** 2) / 2
        expect(taken).toBeLessThanOrEqual(supplied * (1 + 1e-9))
      }),
    )
  })
})
