import {
  add,
  type Complex,
  complex,
  divide,
  magnitude,
  multiply,
  one,
  parallel,
  polar,
  reciprocal,
  scale,
  zero,
} from './complex.ts'
import { me1Values } from './me-1-values.ts'
import { type Acoustics, type Cavity, type Direction, impedanceOf, type ParameterSet, part } from './network.ts'

/** Points: 0 malleus, 1 incus and stapes, which have one motion in this set. */
const malleus: Direction = [1]
const incus: Direction = [0, 1]
const beta = me1Values.beta.value

const ossicles = { mass: 7e-6, stiffness: 1 / 3e-3 }
const malleusShare = 2 / 3
const incusShare = 1 / 3

/** Bulk modulus of air at 310 K, Pa: turns the volumes of the cavities into compliances. */
const bulkModulus = 1.417e5

const element = (resistance: number, mass: number, compliance: number, omega: number): Complex =>
  impedanceOf({ resistance, mass, stiffness: 1 / compliance }, omega)

/** Freely moving eardrum beside its coupling to the malleus, N s/m. */
const eardrumMass = (omega: number): Complex => parallel(complex(0.02, omega * 12e-6), element(0.08, 0, 0.5e-3, omega))

const areaHz = 2200
const areaQuality = 1.3
const turnHz = 1500

function resonantArea(frequencyHz: number): Complex {
  const x = frequencyHz / areaHz
  return add(divide(complex(40e-6, 0), complex(1 - x * x, x / areaQuality)), complex(-2e-6, 0))
}

/** Effective area of the eardrum, m2; above 1.5 kHz its phase goes on at -1.2 pi a decade. */
function effectiveArea(frequencyHz: number): Complex {
  const area = resonantArea(frequencyHz)
  if (frequencyHz <= turnHz) return area
  const atTurn = resonantArea(turnHz)
  const phase = Math.atan2(atTurn.im, atTurn.re) - 1.2 * Math.PI * Math.log10(frequencyHz / turnHz)
  return polar(magnitude(area), phase)
}

/** Flow that moves the eardrum but not the malleus, per pressure, m5/(N s). */
function shuntAdmittance(frequencyHz: number, omega: number): Complex {
  const inertance = 2400 * (1 + Math.sqrt(frequencyHz / 1900))
  const turned = polar(1, 1.4 * Math.PI * Math.log10(1 + frequencyHz / 8000))
  return multiply(reciprocal(element(4e7, inertance, 5e-12, omega)), turned)
}

function cavities(frequencyHz: number, omega: number): Complex {
  const x = frequencyHz / 3500
  const mastoid = divide(complex(0, (omega * 8e-6) / bulkModulus), complex(1 - x * x, x / 0.4))
  const antrum = complex(0, (omega * 0.8e-6) / bulkModulus)
  const aditus = add(complex(1.7e6, omega * 880), reciprocal(add(antrum, mastoid)))
  const tympanic = element(2e6, 0, 0.5e-6 / bulkModulus, omega)
  return parallel(tympanic, aditus)
}

function acousticsAt(frequencyHz: number, cavity: Cavity): Acoustics {
  const omega = 2 * Math.PI * frequencyHz
  const area = effectiveArea(frequencyHz)
  const behind = cavity === 'open' ? zero : cavities(frequencyHz, omega)
  const divided = add(one, multiply(behind, shuntAdmittance(frequencyHz, omega)))
  const drum = eardrumMass(omega)
  const airLoad = divide(multiply(multiply(area, area), behind), divided)
  return {
    elements: [
      { along: malleus, z: add(scale(drum, malleusShare), airLoad) },
      { along: incus, z: scale(drum, incusShare) },
    ],
    soundForce: divide(area, divided),
  }
}

/**
 * Alternate set after Hudde and Engel 1998: complete and published, without a lever, with a stiff malleus-incus joint and
 * none between incus and stapes. Its two rules for phases are not quite causal and can make a resistance negative: it is
 * for magnitudes only, as a second opinion. Above 3 kHz its stapes moves too little.
 * Source: Hudde and Engel 1998, Acustica 84:720-738, 894-913 and 1091-1108, adult values; confirmed in the transcription
 * github.com/tobiassankowsky/acoustic_impedance_infant_ear, not in the papers. The eardrum loads malleus and incus 2 to 1,
 * as the ossicles do. Checked by: tests/published/middle-ear-alternates.test.ts
 */
export const altHe: ParameterSet = {
  id: 'ALT-HE',
  points: 2,
  parts: [
    part('malleus', malleus, { mass: malleusShare * ossicles.mass }),
    part('malleus-ligaments', malleus, { stiffness: malleusShare * ossicles.stiffness }),
    part('malleus-incus-joint', [1, -1], { resistance: 1, stiffness: 1 / 0.04e-3 }),
    part('incus', incus, { mass: incusShare * ossicles.mass }),
    part('incus-ligaments', incus, { stiffness: incusShare * ossicles.stiffness }),
    part('stapes', incus, { mass: 3e-6, resistance: 18e-3 }),
    part('annular-ligament', incus, { stiffness: 1 / 1.2e-3 }),
    part('cochlea', incus, { mass: 10e-6, resistance: 70e-3, stiffness: 1 / 11e-3 }),
  ],
  sites: { malleus, 'incus-body': [0, beta], 'incus-long-process': incus },
  soundAlong: malleus,
  outlet: incus,
  hasCavity: true,
  acousticsAt,
}
