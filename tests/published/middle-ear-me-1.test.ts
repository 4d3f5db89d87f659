// Tables of the base set ME-1, computed apart from this code (dense linear algebra, five unknowns for the floating mass) from
// the same published values: Rosowski 1993 and Kringlebotn 1988 with Aibara et al. 2001. They are no measurements; they
// show that the network here is that network. Sound is without the acoustic route past the chain.
import { describe, it } from 'vitest'
import type { Actuator, ActuatorSite } from '../../lib/devices/drives.ts'
import type { EarChange, Ligament } from '../../lib/devices/ear-changes.ts'
import { decibels, magnitude, phaseDegrees } from '../../lib/middle-ear/complex.ts'
import { me1 } from '../../lib/middle-ear/me-1.ts'
import { me1Values } from '../../lib/middle-ear/me-1-values.ts'
import { velocityAlong } from '../../lib/middle-ear/response.ts'
import {
  chainChangeDb,
  force,
  type Point,
  responseIn,
  slackMalleusIncus,
  sound,
  stiffened,
  velocityOf,
} from '../fixtures/middle-ear.ts'
import tables from './middle-ear-me-1.json'
import { checkValue } from './record-check.ts'

const source = 'Rosowski 1993 and Kringlebotn 1988 with Aibara et al. 2001, network computed apart (numpy)'
const tenth = { tolerance: 0.06, why: 'given with one decimal' }
const rounded = { tolerance: 0.1, why: 'given with one decimal, made from rounded velocities' }
const { frequencyHz: frequencies } = tables

function checkRow(
  what: string,
  expected: readonly number[],
  actual: (frequencyHz: number) => number,
  accuracy = tenth,
) {
  checkValue({ source, what, expected, actual: frequencies.map(actual), ...accuracy })
}

describe.each([
  { name: 'closed cavity', table: tables.normalClosed, changes: [] as readonly EarChange[] },
  { name: 'open cavity', table: tables.normalOpen, changes: [{ kind: 'cavity-open' }] as readonly EarChange[] },
])('normal ear, $name', ({ name, table, changes }) => {
  const speed = (point: Point, f: number) => magnitude(velocityOf(point, sound, f, changes))

  it('moves umbo, incus and stapes as given', () => {
    const accuracy = { tolerance: 0.000051, why: 'given with four decimals' }
    const inMm = (point: Point) => (f: number) => 1000 * speed(point, f)
    checkRow(`${name}: stapes, mm/s/Pa`, table.stapes_velocity_mm_s_Pa, inMm('stapes'), accuracy)
    checkRow(`${name}: umbo, mm/s/Pa`, table.umbo_velocity_mm_s_Pa, inMm('malleus'), accuracy)
    checkRow(`${name}: incus tip, mm/s/Pa`, table.incus_lp_velocity_mm_s_Pa, inMm('incus'), accuracy)
  })

  it('has the phase of the stapes', () => {
    const accuracy = { tolerance: 0.51, why: 'whole degrees' }
    const phase = (f: number) => phaseDegrees(velocityOf('stapes', sound, f, changes))
    checkRow(`${name}: stapes, degrees`, table.stapes_phase_deg, phase, accuracy)
  })

  it('has the pressure gain of the vestibule', () => {
    const { A_FP, R_D, C_RW } = me1Values
    const gain = (f: number) => {
      const impedance = magnitude({ re: R_D.value, im: -1 / (2 * Math.PI * f * C_RW.value) })
      return decibels(A_FP.value * speed('stapes', f) * impedance)
    }
    checkRow(`${name}: vestibular gain, dB`, table.pressure_gain_dB, gain)
  })

  it('loses at the joints what is given', () => {
    const ratio = (f: number) => decibels(speed('stapes', f) / speed('malleus', f))
    const incudal = (f: number) => decibels(speed('malleus', f) / me1Values.r.value / speed('incus', f))
    const stapedial = (f: number) => decibels(speed('incus', f) / speed('stapes', f))
    checkRow(`${name}: stapes re umbo, dB`, table.stapes_re_umbo_dB, ratio)
    checkRow(`${name}: malleus-incus joint loss, dB`, table.imj_loss_dB, incudal)
    checkRow(`${name}: incus-stapes joint loss, dB`, table.isj_loss_dB, stapedial)
  })

  it('has the acoustic input impedance', () => {
    const impedance = (f: number) => 1e-6 / (me1Values.A_TM.value * speed('eardrum', f))
    const accuracy = { tolerance: 0.051, why: 'given with one decimal' }
    checkRow(`${name}: input impedance, 1e6 N s/m5`, table.input_impedance_Mohm, impedance, accuracy)
  })
})

const siteOf: Record<string, ActuatorSite> = {
  malleus: 'malleus',
  body: 'incus-body',
  lp: 'incus-long-process',
  stapes: 'stapes-head',
  rw: 'round-window',
}
const siteNamed = (name: string): ActuatorSite => siteOf[name] ?? 'malleus'

describe.each([
  { actuator: 'fixed-frame', absolute: tables.fixedFrameDb, relative: tables.fixedFrameReLongProcessDb },
  { actuator: 'floating-mass', absolute: tables.floatingMassDb, relative: tables.floatingMassReLongProcessDb },
] as const)('drive per site, $actuator', ({ actuator, absolute, relative }) => {
  const levelAt = (site: ActuatorSite, f: number) => decibels(magnitude(velocityOf('stapes', force(site, actuator), f)))

  it.each(Object.entries(absolute))('%s, re 1 m/s/N', (name, expected) => {
    checkRow(`${actuator} on ${name}, dB re 1 m/s/N`, expected, (f) => levelAt(siteNamed(name), f))
  })

  it.each(Object.entries(relative))('%s, re long process', (name, expected) => {
    const actual = (f: number) => levelAt(siteNamed(name), f) - levelAt('incus-long-process', f)
    checkRow(`${actuator} on ${name}, dB re long process`, expected, actual)
  })
})

const equivalents: Record<keyof typeof tables.equivalentDbSplFor1mN, readonly [ActuatorSite, Actuator]> = {
  fixed_frame_long_process: ['incus-long-process', 'fixed-frame'],
  'fixed_frame_body_beta_0.4': ['incus-body', 'fixed-frame'],
  fixed_frame_stapes: ['stapes-head', 'fixed-frame'],
  floating_long_process: ['incus-long-process', 'floating-mass'],
  floating_body: ['incus-body', 'floating-mass'],
  floating_stapes: ['stapes-head', 'floating-mass'],
  floating_round_window_ideal_coupling: ['round-window', 'floating-mass'],
}

it.each(Object.entries(equivalents))('1 mN as a sound level: %s', (name, [site, actuator]) => {
  const expected = tables.equivalentDbSplFor1mN[name as keyof typeof equivalents]
  const perPascal = (f: number) => magnitude(velocityOf('stapes', sound, f))
  const actual = (f: number) =>
    decibels((1e-3 * magnitude(velocityOf('stapes', force(site, actuator), f))) / perPascal(f) / 20e-6)
  checkRow(`1 mN, ${actuator} on ${site}, dB SPL`, expected, actual, rounded)
})

const ligamentOf: Record<string, Ligament> = {
  annular_ligament: 'annular',
  malleus_ligaments: 'malleus',
  incus_ligaments: 'incus',
  malleus_and_incus: 'malleus-and-incus',
}

describe.each(tables.fixation)('fixation of $structure $scale', (row) => {
  const ligament = ligamentOf[row.structure] ?? 'malleus'
  const changes = [stiffened(ligament, Number(row.scale.slice(1)))]
  const change = (site: ActuatorSite, actuator: Actuator) => (f: number) =>
    chainChangeDb(changes, force(site, actuator), f)
  const what = (drive: string) => `${row.structure} ${row.scale}: ${drive}, dB`

  it('costs sound and the umbo what is given', () => {
    const umbo = (f: number) =>
      decibels(magnitude(velocityOf('malleus', sound, f, changes)) / magnitude(velocityOf('malleus', sound, f)))
    checkRow(what('sound'), row.sound_stapes_dB, (f) => chainChangeDb(changes, sound, f))
    checkRow(what('umbo, sound'), row.sound_umbo_dB, umbo)
  })

  it('costs actuators with a fixed frame what is given', () => {
    const fixed = 'fixed-frame'
    const incus = row.fixed_frame_incus_body_or_long_process_dB
    const beyond = row.fixed_frame_stapes_head_or_round_window_dB
    checkRow(what('malleus, fixed frame'), row.fixed_frame_malleus_dB, change('malleus', fixed))
    for (const site of ['incus-body', 'incus-long-process'] as const)
      checkRow(what(`${site}, fixed frame`), incus, change(site, fixed))
    for (const site of ['stapes-head', 'oval-window', 'round-window'] as const)
      checkRow(what(`${site}, fixed frame`), beyond, change(site, fixed))
  })

  it('costs floating-mass actuators what is given', () => {
    const floating = 'floating-mass'
    checkRow(what('body, floating'), row.floating_incus_body_dB, change('incus-body', floating))
    checkRow(what('long process, floating'), row.floating_long_process_dB, change('incus-long-process', floating))
    checkRow(what('stapes head, floating'), row.floating_stapes_head_dB, change('stapes-head', floating))
    checkRow(what('round window, floating'), row.floating_round_window_dB, change('round-window', floating))
  })
})

describe.each(tables.slackJoint)('malleus-incus joint, q = $q', (row) => {
  const changes: readonly EarChange[] = [
    typeof row.q === 'number' ? slackMalleusIncus(row.q) : { kind: 'joint-ankylosed', joint: 'malleus-incus' },
  ]
  const what = (name: string) => `malleus-incus joint x${row.q}: ${name}, dB`
  const speed = (point: Point, f: number) => magnitude(velocityOf(point, sound, f, changes))

  it('loses at the joint, and for sound, what is given', () => {
    const joint = (f: number) => decibels(speed('malleus', f) / me1Values.r.value / speed('incus', f))
    checkRow(what('joint loss'), row.imj_loss_dB, joint)
    checkRow(what('sound'), row.sound_stapes_re_nominal_dB, (f) => chainChangeDb(changes, sound, f))
  })
})

const withActuators = tables.slackJoint.flatMap((row) => (typeof row.q === 'number' ? [{ ...row, q: row.q }] : []))

it.each(withActuators)('malleus-incus joint, q = $q, frees or loses the actuators as given', (row) => {
  const slack = slackMalleusIncus(row.q)
  const onIncus = force('incus-long-process')
  const what = (name: string) => `malleus-incus joint x${row.q}: ${name}, dB`
  const fixed = [slack, stiffened('malleus', 100)]
  const given = {
    incus: row.incus_drive_re_nominal_dB ?? [],
    behindFixed: row.incus_drive_with_malleus_x100_re_nominal_dB ?? [],
    malleus: row.malleus_drive_re_nominal_dB ?? [],
  }
  checkRow(what('incus drive'), given.incus, (f) => chainChangeDb([slack], onIncus, f))
  checkRow(what('incus drive, malleus x100'), given.behindFixed, (f) => chainChangeDb(fixed, onIncus, f))
  checkRow(what('malleus drive'), given.malleus, (f) => chainChangeDb([slack], force('malleus'), f))
})

it.each(tables.addedMass)('$mass_mg mg on $site', ({ site, mass_mg: massMg, sound_stapes_dB: expected }) => {
  const changes: readonly EarChange[] = [{ kind: 'mass-added', site: siteNamed(site), massMg }]
  checkRow(`${massMg} mg on ${site}: sound, dB`, expected, (f) => chainChangeDb(changes, sound, f))
})

it.each(Object.entries(tables.bodyLever))('a contact at %s of the arm', (beta, expected) => {
  // a motion of the body is beta times that of the tip; by reciprocity so is what a force there does to the stapes
  const tip = (f: number) => responseIn(force('stapes-head'), f)
  const actual = (f: number) =>
    decibels(magnitude(velocityAlong(tip(f), [0, 0, Number(beta)])) / magnitude(velocityAlong(tip(f), [0, 0, 1])))
  checkRow(`body at ${beta} of the arm, dB re long process`, expected, actual)
})

describe.each(tables.compliantAxis)('yielding axis of $KA_N_per_m N/m (exploratory)', (row) => {
  const axis: EarChange = { kind: 'incus-axis-compliant', stiffnessNPerM: row.KA_N_per_m }
  const bridge: EarChange = { kind: 'incus-bridge', stiffnessNPerM: 30_000 }
  const level = (site: ActuatorSite, changes: readonly EarChange[], f: number) =>
    decibels(magnitude(velocityAlong(responseIn(force(site), f, changes), me1.outlet)))

  it('drives by the body as given', () => {
    const actual = (f: number) => level('incus-body', [axis], f) - level('incus-long-process', [axis], f)
    checkRow(`axis ${row.KA_N_per_m} N/m: body, dB re long process`, row.body_re_long_process_dB, actual)
  })

  it('loses by a bridge at the body what is given', () => {
    const { sound: bySound, ...bySite } = row.attic_fixation_K_B_30000_N_per_m
    const what = (drive: string) => `axis ${row.KA_N_per_m} N/m, bridge 3e4 N/m: ${drive}, dB`
    const soundLevel = (changes: readonly EarChange[], f: number) =>
      decibels(magnitude(velocityOf('stapes', sound, f, changes)))
    checkRow(what('sound'), bySound, (f) => soundLevel([axis, bridge], f) - soundLevel([axis], f))
    for (const [name, expected] of Object.entries(bySite))
      checkRow(
        what(name),
        expected,
        (f) => level(siteNamed(name), [axis, bridge], f) - level(siteNamed(name), [axis], f),
      )
  })
})

it.each([
  { complianceM5PerN: 1e-15, expected: -14 },
  { complianceM5PerN: 5e-15, expected: -3 },
])(
  'a third window of $complianceM5PerN m5/N saves the round-window drive (exploratory)',
  ({ complianceM5PerN, expected }) => {
    const window: EarChange = { kind: 'third-window', complianceM5PerN }
    const onWindow = force('round-window')
    const level = (changes: readonly EarChange[]) =>
      decibels(magnitude(velocityAlong(responseIn(onWindow, 1000, changes), me1.outlet)))
    checkValue({
      source,
      what: `third window ${complianceM5PerN} m5/N, annular ligament x100, round-window drive at 1 kHz, dB`,
      expected,
      actual: level([window, stiffened('annular', 100)]) - level([window]),
      tolerance: 0.51,
      why: 'given in whole dB',
    })
  },
)
