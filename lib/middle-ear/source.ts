import type { Drive } from '../devices/drives.ts'
import { add, type Complex, complex, multiply, one, reciprocal, scale } from './complex.ts'
import { floatingMassValues } from './me-1-values.ts'
import type { Acoustics, Direction, Ear, Load } from './network.ts'

/** A force on the ear at one frequency, with what its maker loads the ear with. */
export interface Source {
  readonly along: Direction
  /** N along that motion */
  readonly force: Complex
  readonly load: readonly Load[]
}

/**
 * The force of a unit drive: 1 Pa at the eardrum, or 1 N between actuator and its frame or inner mass.
 * @returns undefined where the ear, or the parameter set, has no such site
 */
export function sourceOf(ear: Ear, acoustics: Acoustics, drive: Drive, frequencyHz: number): Source | undefined {
  if (drive.by === 'sound') return { along: ear.set.soundAlong, force: acoustics.soundForce, load: [] }
  const along = ear.sites[drive.site]
  if (along === undefined) return undefined
  return drive.actuator === 'fixed-frame' ? { along, force: one, load: [] } : floatingMass(along, frequencyHz)
}

/** Masses in kg, inner resonance in Hz. */
export type FloatingMass = Readonly<Record<keyof typeof floatingMassValues, number>>

const usualFloatingMass: FloatingMass = {
  caseMass: floatingMassValues.caseMass.value,
  innerMass: floatingMassValues.innerMass.value,
  resonance: floatingMassValues.resonance.value,
  quality: floatingMassValues.quality.value,
}

/**
 * Case and inner mass, joined by a spring and its loss. The coil pushes both apart. Solved for the inner mass, the pair is
 * a load on the ear and a force that dies away below the inner resonance: -s m / (s m + Z_spring).
 */
export function floatingMass(along: Direction, frequencyHz: number, values = usualFloatingMass): Source {
  const { caseMass, innerMass, resonance, quality } = values
  const omega = 2 * Math.PI * frequencyHz
  const omegaInside = 2 * Math.PI * resonance
  const inner = complex(0, omega * innerMass)
  const spring = complex((innerMass * omegaInside) / quality, -(innerMass * omegaInside ** 2) / omega)
  const together = reciprocal(add(inner, spring))
  const load = add(complex(0, omega * caseMass), multiply(multiply(inner, spring), together))
  return { along, force: scale(multiply(inner, together), -1), load: [{ along, z: load }] }
}
