import type { ActuatorSite } from '../devices/drives.ts'
import type { Complex } from './complex.ts'
import { addElement, emptyMatrix, type Matrix } from './mobility.ts'

/** Which velocities make up the motion along an element, with their weights: one number a point of the network; zeros at the end are left out. */
export type Direction = readonly number[]

export type Role =
  | 'eardrum'
  | 'eardrum-coupling'
  | 'malleus'
  | 'malleus-ligaments'
  | 'malleus-incus-joint'
  | 'incus'
  | 'incus-ligaments'
  | 'incus-stapes-joint'
  | 'stapes'
  | 'annular-ligament'
  | 'cochlea'
  | 'round-window'
  | 'added'

/** A mass (kg), a resistance (N s/m) and a stiffness (N/m) that share one motion. */
export interface Part {
  readonly role: Role
  readonly along: Direction
  readonly mass: number
  readonly resistance: number
  readonly stiffness: number
}

/** What depends on the frequency otherwise than a mass, a resistance or a spring: air, eardrum. */
export interface Acoustics {
  readonly elements: readonly { readonly along: Direction; readonly z: Complex }[]
  /** force of 1 Pa at the eardrum: this number of newtons along `soundAlong` */
  readonly soundForce: Complex
}

export type Cavity = 'closed' | 'open'
export type ParameterSetId = 'ME-1' | 'ALT-HE' | 'ALT-L'

/** A published set of values for the chain, with what can be said in its terms. */
export interface ParameterSet {
  readonly id: ParameterSetId
  /** how many velocities are unknown */
  readonly points: number
  readonly parts: readonly Part[]
  /** motion of the point where an actuator rests; a site without a point of its own in this set is absent */
  readonly sites: Readonly<Partial<Record<ActuatorSite, Direction>>>
  readonly soundAlong: Direction
  /** motion whose velocity drives the cochlea */
  readonly outlet: Direction
  /** the set has air spaces that can be opened */
  readonly hasCavity: boolean
  acousticsAt(frequencyHz: number, cavity: Cavity): Acoustics
  /** resistances that follow from the masses and springs as a whole, N s/m */
  dampingOf?(parts: readonly Part[]): Float64Array
}

/** An ear in terms of one parameter set: what a list of changes has made of it. */
export interface Ear {
  readonly set: ParameterSet
  readonly points: number
  readonly parts: readonly Part[]
  readonly sites: ParameterSet['sites']
  readonly outlet: Direction
  readonly cavity: Cavity
  readonly damping: Float64Array | undefined
}

export const part = (role: Role, along: Direction, values: Partial<Omit<Part, 'role' | 'along'>>): Part => ({
  role,
  along,
  mass: 0,
  resistance: 0,
  stiffness: 0,
  ...values,
})

/** The ear of a parameter set as published. */
export const normalEar = (set: ParameterSet): Ear => ({
  set,
  points: set.points,
  parts: set.parts,
  sites: set.sites,
  outlet: set.outlet,
  cavity: 'closed',
  damping: set.dampingOf?.(set.parts),
})

/** Force per velocity of a part at the angular frequency `omega`, rad/s: R + j (omega m - K / omega). */
export const impedanceOf = ({ resistance, mass, stiffness }: Omit<Part, 'role' | 'along'>, omega: number): Complex => ({
  re: resistance,
  im: omega * mass - stiffness / omega,
})

/**
 * The matrix Y of the network, force = Y velocity, N s/m, from any frequency above 0 Hz. `load` rests on the ear without
 * being part of it, as the case of an actuator does.
 */
export function impedanceMatrix(ear: Ear, acoustics: Acoustics, frequencyHz: number, load: readonly Load[]): Matrix {
  const omega = 2 * Math.PI * frequencyHz
  const matrix = emptyMatrix(ear.points)
  for (const element of ear.parts) addElement(matrix, element.along, impedanceOf(element, omega))
  for (const { along, z } of acoustics.elements) addElement(matrix, along, z)
  for (const { along, z } of load) addElement(matrix, along, z)
  if (ear.damping !== undefined) addResistances(matrix, ear.damping)
  return matrix
}

export interface Load {
  readonly along: Direction
  readonly z: Complex
}

function addResistances({ re }: Matrix, damping: Float64Array): void {
  for (let at = 0; at < re.length; at++) re[at] = (re[at] as number) + (damping[at] as number)
}
