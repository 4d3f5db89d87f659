// What changes of the ear, sites and actuators must do in the network, whatever its values are.
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { ActuatorSite } from '../../lib/devices/drives.ts'
import type { EarChange, Ligament } from '../../lib/devices/ear-changes.ts'
import { changedEar } from '../../lib/middle-ear/changed-ear.ts'
import { complex, decibels, scale } from '../../lib/middle-ear/complex.ts'
import { me1 } from '../../lib/middle-ear/me-1.ts'
import { floatingMassValues, me1Values } from '../../lib/middle-ear/me-1-values.ts'
import { normalEar } from '../../lib/middle-ear/network.ts'
import { eardrumSteps, outletShifts, variation } from '../../lib/middle-ear/parameter-spread.ts'
import { outletDb, responseTo, solve } from '../../lib/middle-ear/response.ts'
import { floatingMass } from '../../lib/middle-ear/source.ts'
import { anyFrequency } from '../fixtures/ear-changes.ts'
import {
  chainChangeDb,
  everyDrive,
  force,
  points,
  relativeError,
  responseIn,
  slackMalleusIncus,
  sound,
  speedOf,
  stiffened,
} from '../fixtures/middle-ear.ts'

const sites = ActuatorSite.options
const low = [250, 500, 1000]

describe('fixation', () => {
  const ligaments: readonly Ligament[] = ['malleus', 'incus', 'malleus-and-incus', 'annular']
  const times = fc.double({ min: 1, max: 9000, noNaN: true })

  it('stiffer is never louder below the resonance', () => {
    fc.assert(
      fc.property(fc.constantFrom(...ligaments), times, fc.constantFrom(250, 500), (ligament, n, f) => {
        const softer = chainChangeDb([stiffened(ligament, n)], sound, f)
        const stiffer = chainChangeDb([stiffened(ligament, n * 1.1)], sound, f)
        expect(stiffer).toBeLessThanOrEqual(softer + 1e-9)
        expect(softer).toBeLessThanOrEqual(1e-9)
      }),
    )
  })

  it('x1 changes nothing', () => {
    for (const ligament of ligaments)
      for (const drive of everyDrive) expect(chainChangeDb([stiffened(ligament, 1)], drive, 1000)).toBeCloseTo(0, 12)
  })

  it('at the stapes costs every drive the same', () => {
    fc.assert(
      fc.property(times, anyFrequency, (n, f) => {
        const bySound = chainChangeDb([stiffened('annular', n)], sound, f)
        for (const drive of everyDrive)
          expect(chainChangeDb([stiffened('annular', n)], drive, f)).toBeCloseTo(bySound, 8)
      }),
    )
  })

  it('at the malleus costs sound and malleus drive most, the stapes least', () => {
    for (const n of [2, 10, 100, 1000])
      for (const f of low) {
        const change = (drive: typeof sound) => chainChangeDb([stiffened('malleus', n)], drive, f)
        expect(change(force('malleus'))).toBeCloseTo(change(sound), 8)
        expect(change(force('incus-long-process'))).toBeGreaterThanOrEqual(change(sound))
        expect(change(force('stapes-head'))).toBeGreaterThanOrEqual(change(force('incus-long-process')))
      }
  })

  it('at the incus costs sound and incus drive alike, the stapes less', () => {
    for (const n of [2, 10, 100, 1000])
      for (const f of low) {
        const change = (drive: typeof sound) => chainChangeDb([stiffened('incus', n)], drive, f)
        expect(change(force('incus-long-process'))).toBeCloseTo(change(sound), 8)
        expect(change(force('stapes-head'))).toBeGreaterThanOrEqual(change(sound))
      }
  })
})

describe('sites, joints and masses', () => {
  it('the body drives as the long process does, less 20 log10 of the lever', () => {
    fc.assert(
      fc.property(anyFrequency, (f) => {
        const difference = decibels(
          speedOf('stapes', force('incus-body'), f) / speedOf('stapes', force('incus-long-process'), f),
        )
        expect(difference).toBeCloseTo(decibels(me1Values.beta.value), 9)
      }),
    )
  })

  it('a rigid malleus-incus joint loses nothing', () => {
    const ankylosed: readonly EarChange[] = [{ kind: 'joint-ankylosed', joint: 'malleus-incus' }]
    for (const f of low) {
      const lever = speedOf('malleus', sound, f, ankylosed) / speedOf('incus', sound, f, ankylosed)
      expect(lever).toBeCloseTo(me1Values.r.value, 4)
    }
  })

  it('a joint that lets go silences sound but not the incus drive', () => {
    const slack = [slackMalleusIncus(0.001)]
    for (const f of low) {
      expect(chainChangeDb(slack, sound, f)).toBeLessThan(-30)
      expect(chainChangeDb(slack, force('incus-long-process'), f)).toBeGreaterThan(-1)
    }
  })

  it('up to 50 mg leave the bass alone and never help from 3 kHz up, the less the more it is', () => {
    const mg = fc.double({ min: 0, max: 50, noNaN: true })
    fc.assert(
      fc.property(
        fc.constantFrom(...sites),
        mg,
        fc.double({ min: 3000, max: 10_000, noNaN: true }),
        (site, massMg, f) => {
          const change = (mass: number, at: number) =>
            chainChangeDb([{ kind: 'mass-added', site, massMg: mass }], sound, at)
          expect(Math.abs(change(massMg, 120))).toBeLessThan(0.5)
          expect(change(massMg, f)).toBeLessThanOrEqual(1e-9)
          expect(change(massMg + 1, f)).toBeLessThanOrEqual(change(massMg, f) + 1e-9)
        },
      ),
    )
  })

  it('twice the force moves the stapes twice as far', () => {
    const [ear, f] = [normalEar(me1), 1000]
    const pushed = (force: number) =>
      responseTo(ear, me1.acousticsAt(f, 'closed'), { along: points.malleus, force: complex(force, 0), load: [] }, f)
        .outlet
    expect(relativeError(pushed(2), scale(pushed(1), 2))).toBeLessThan(1e-12)
  })
})

describe('floating mass', () => {
  it.each(sites)('well below its inner resonance it falls 12 dB an octave against a fixed frame: %s', (site) => {
    const relative = (f: number) =>
      decibels(speedOf('stapes', force(site, 'floating-mass'), f) / speedOf('stapes', force(site), f))
    expect(Math.abs(relative(200) - relative(100) - 12)).toBeLessThanOrEqual(1)
  })

  it('with a heavy inner mass on no spring and no damper it is a fixed frame with a case', () => {
    const f = 2000
    const caseMass = floatingMassValues.caseMass.value
    const ear = normalEar(me1)
    const heavy = floatingMass(points.incus, f, {
      caseMass,
      innerMass: 1e9,
      resonance: 1e-9,
      quality: 1e12,
    })
    const floating = responseTo(ear, me1.acousticsAt(f, 'closed'), heavy, f).outlet
    const withCase: EarChange = { kind: 'mass-added', site: 'incus-long-process', massMg: caseMass * 1e6 }
    const fixedFrame = responseIn(force('incus-long-process'), f, [withCase]).outlet
    // the coil pushes the inner mass, so the ear moves the other way
    expect(relativeError(fixedFrame, scale(floating, -1))).toBeLessThan(1e-6)
  })
})

describe('spread between ears', () => {
  it('one step of a quantity is what solving the network anew gives', () => {
    fc.assert(
      fc.property(anyFrequency, fc.constantFrom(...everyDrive), fc.constantFrom(1, 10, 300), (f, drive, times) => {
        const changes = [stiffened('malleus', times)]
        const ear = changedEar(me1, changes)
        const sd = Math.sqrt(Math.log(1 + variation.spring ** 2))
        const stepped = (by: number) => {
          const parts = ear.parts.map((own) =>
            own.role === 'incus-stapes-joint' ? { ...own, stiffness: own.stiffness * Math.exp(by) } : own,
          )
          const response = solve({ ...ear, parts }, drive, f)
          return response === undefined ? Number.NaN : outletDb(response)
        }
        const shifts = outletShifts(responseIn(drive, f, changes), eardrumSteps(f, 'closed'), f)
        const found = shifts.find(({ name }) => name === 'incus-stapes-joint stiffness')
        expect(found?.db).toBeCloseTo((stepped(sd) - stepped(-sd)) / 2, 8)
      }),
    )
  })
})
