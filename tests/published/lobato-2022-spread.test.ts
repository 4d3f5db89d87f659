// Spread between ears within the base set: 4,000 random ears, all values log-normal with variation coefficients 0.5 (springs,
// compliances, resistances), 0.3 (cochlea), 0.2 (masses) and 0.1 (areas); the choice follows Lobato et al. 2022, J Acoust
// Soc Am 151:2043-2054, abstract: stiffness varies more than mass. The drawn ears are of the reference tables; here the
// same spread comes from one step of a standard deviation each way.
import { expect, it } from 'vitest'
import type { Drive } from '../../lib/devices/drives.ts'
import type { EarChange } from '../../lib/devices/ear-changes.ts'
import {
  eardrumSteps,
  outletShifts,
  type Shift,
  sdOfChangeDb,
  variation,
} from '../../lib/middle-ear/parameter-spread.ts'
import { force, responseIn, sound, stiffened } from '../fixtures/middle-ear.ts'
import tables from './middle-ear-me-1.json'
import { checkValue } from './record-check.ts'

const source = 'Spread of 4,000 drawn ears, variation guided by Lobato et al. 2022'
const { spreadHz: frequencies, spreadSd } = tables

const shifts = (changes: readonly EarChange[], drive: Drive, f: number): readonly Shift[] =>
  outletShifts(responseIn(drive, f, changes), eardrumSteps(f, 'closed'), f)

const sdOf = (changes: readonly EarChange[], drive: Drive) => (f: number) =>
  sdOfChangeDb(shifts(changes, drive, f), shifts([], drive, f))

const rows = [
  { name: 'stapes x10, sound', expected: spreadSd.stapes_x10_sound, sd: sdOf([stiffened('annular', 10)], sound) },
  {
    name: 'malleus x100, incus drive',
    expected: spreadSd.malleus_x100_incus_drive,
    sd: sdOf([stiffened('malleus', 100)], force('incus-long-process')),
  },
  {
    name: 'malleus x100, stapes drive',
    expected: spreadSd.malleus_x100_stapes_drive,
    sd: sdOf([stiffened('malleus', 100)], force('stapes-head')),
  },
  {
    name: 'incus x100, incus drive',
    expected: spreadSd.incus_x100_incus_drive,
    sd: sdOf([stiffened('incus', 100)], force('incus-long-process')),
  },
  {
    name: 'incus x100, stapes drive',
    expected: spreadSd.incus_x100_stapes_drive,
    sd: sdOf([stiffened('incus', 100)], force('stapes-head')),
  },
]

const step = { tolerance: 0.2, why: 'one step of an SD stands for the draws, whose SD is known to 0.04 dB' }
const nearResonance = {
  tolerance: 0.55,
  why: 'a stiffened stapes brings the resonance to 2 to 4 kHz, where the steps read 2.4 dB for 2.9 dB of the draws',
}

it.each(rows)('$name', ({ name, expected, sd }) => {
  checkValue({
    source,
    what: `${name}: SD, dB`,
    expected,
    actual: frequencies.map(sd),
    ...(name.startsWith('stapes') ? nearResonance : step),
  })
})

it('stapes velocity for sound', () => {
  // the area of the eardrum also turns pressure into force: 20 log10(exp(SD of the logarithm)) on top of its own step
  const force1 = (20 / Math.LN10) * Math.sqrt(Math.log(1 + variation.area ** 2))
  const sd = (f: number) =>
    Math.hypot(...shifts([], sound, f).map(({ name, db }) => (name === 'eardrum area' ? db + force1 : db)))
  const expected = spreadSd.stapes_velocity
  checkValue({ source, what: 'stapes velocity: SD, dB', expected, actual: frequencies.map(sd), ...step })
})

it('is nothing where nothing changes', () => {
  expect(sdOf([], sound)(1000)).toBe(0)
  expect(sdOf([stiffened('malleus', 1)], sound)(1000)).toBeCloseTo(0, 12)
})
