import type { Drive } from '../devices/drives.ts'
import { type Complex, decibels, magnitude, multiply } from './complex.ts'
import { type Matrix, mobilityOf, seenAlong } from './mobility.ts'
import { type Acoustics, type Direction, type Ear, impedanceMatrix } from './network.ts'
import { type Source, sourceOf } from './source.ts'

/** How an ear answers one drive at one frequency. */
export interface Response {
  readonly ear: Ear
  readonly source: Source
  /** velocity at each point per force at each point, with the actuator resting on the ear */
  readonly mobility: Matrix
  /** velocity that drives the cochlea for the unit drive, m/s */
  readonly outlet: Complex
}

/**
 * Solves the network at any frequency above 0 Hz; how far its numbers can be trusted is said at `driveChange`.
 * @returns undefined where the ear, or its parameter set, has no such site
 */
export function responseOf(ear: Ear, acoustics: Acoustics, drive: Drive, frequencyHz: number): Response | undefined {
  const source = sourceOf(ear, acoustics, drive, frequencyHz)
  return source && responseTo(ear, acoustics, source, frequencyHz)
}

/** Solves the network for any force, at any frequency above 0 Hz. */
export function responseTo(ear: Ear, acoustics: Acoustics, source: Source, frequencyHz: number): Response {
  const mobility = mobilityOf(impedanceMatrix(ear, acoustics, frequencyHz, source.load))
  const outlet = multiply(source.force, seenAlong(mobility, ear.outlet, source.along))
  return { ear, source, mobility, outlet }
}

/** Solves the ear of any parameter set at any frequency above 0 Hz. */
export const solve = (ear: Ear, drive: Drive, frequencyHz: number): Response | undefined =>
  responseOf(ear, ear.set.acousticsAt(frequencyHz, ear.cavity), drive, frequencyHz)

/** Velocity along a motion for the unit drive, m/s (for sound: per pascal; for an actuator: per newton). */
export const velocityAlong = ({ source, mobility }: Response, along: Direction): Complex =>
  multiply(source.force, seenAlong(mobility, along, source.along))

/** Level of the drive of the cochlea, dB re 1 m/s for the unit drive; -Infinity where nothing arrives. */
export const outletDb = ({ outlet }: Response): number => decibels(magnitude(outlet))
