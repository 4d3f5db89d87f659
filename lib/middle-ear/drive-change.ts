import type { Drive } from '../devices/drives.ts'
import type { EarChange } from '../devices/ear-changes.ts'
import { altHe } from './alt-he.ts'
import { altL } from './alt-l.ts'
import { type EarPair, earPair, isExploratory } from './changed-ear.ts'
import { decibels, magnitude } from './complex.ts'
import { requireChanges, requireDrive, requireNetworkFrequency } from './domain.ts'
import { me1 } from './me-1.ts'
import { acousticFloor } from './me-1-values.ts'
import { type Acoustics, type Cavity, type Ear, normalEar, type ParameterSet, type ParameterSetId } from './network.ts'
import { type EardrumSteps, eardrumSteps, outletShifts, type Shift, sdOfChangeDb } from './parameter-spread.ts'
import { type Response, responseOf } from './response.ts'

/** Changes of drive by the three parameter sets, dB; a set that cannot express a change has none. */
export interface SpreadOverSets {
  readonly low: number
  readonly high: number
  readonly bySet: Readonly<Partial<Record<ParameterSetId, number>>>
}

/**
 * How much more or less of a drive reaches the cochlea than in the normal ear, dB; negative is a loss. Three numbers belong
 * together: the best estimate, how much it differs between ears of that network, and how far published networks disagree.
 */
export interface DriveChangeEstimate {
  readonly kind: 'change'
  readonly bestDb: number
  /** standard deviation between ears within the base set, dB */
  readonly parameterSdDb: number
  /** standard deviation of the contact, where a contact loss was given, dB */
  readonly contactSdDb: number
  readonly setsDb: SpreadOverSets
  /** `low`: below 250 Hz, above 4 kHz, or on an exploratory assumption */
  readonly confidence: 'trusted' | 'low'
}

/** `site-missing`: the ossicle to be driven is not there. `route-interrupted`: nothing of the drive arrives. */
export type DriveChange =
  | DriveChangeEstimate
  | { readonly kind: 'no-drive'; readonly reason: 'site-missing' | 'route-interrupted' }

/** Trusted band of the network, Hz: above it joints and three-dimensional motion count, and it reads 2 to 4 dB low. */
export const trustedHz = { low: 250, high: 4000 } as const

export interface MiddleEar {
  /**
   * Change of drive that the changes make, against the normal ear driven in the same way.
   *
   * Sound is combined with the acoustic route past the chain (-55 dB re normal, from memory, unconfirmed), so no change
   * costs it much more than 55 dB. An exploratory assumption holds for the normal ear too.
   *
   * What it cannot know: absolute output (only after a first fitting of the same ear is there something to stand on);
   * motion in three dimensions and tilting joints, which matter above about 4 kHz; how well this contact couples, the
   * largest uncertainty at the round window; muscle reflexes, pressure and fluid; bone conduction.
   * @param changes what is different in the ear, all together; none is the normal ear
   * @param frequencyHz 100 to 10,000 Hz
   * @throws RangeError for a frequency, drive or change outside its domain
   * Source: Kringlebotn 1988 and Rosowski 1993 with Aibara et al. 2001 (`me1Values`); alternates Hudde and Engel 1998 and
   * Lobato (`altHe`, `altL`). Checked by: tests/published/middle-ear-*.test.ts, tests/property/middle-ear-*.test.ts
   */
  driveChange(changes: readonly EarChange[], drive: Drive, frequencyHz: number): DriveChange
}

const alternates = [altHe, altL]
const floor = 10 ** (acousticFloor.value / 20)

/** So many frequencies are remembered; a page asks for eleven. */
const rememberedFrequencies = 64

/** What one frequency needs whatever the changes are. */
interface AtFrequency {
  readonly acoustics: Map<string, Acoustics>
  readonly steps: Map<Cavity, EardrumSteps>
  readonly references: Map<string, Answer | undefined>
}

/** A response with its sensitivities: the half of the spread that can be kept. */
interface Answer {
  readonly response: Response
  readonly shifts: readonly Shift[]
}

/** A network that remembers what does not depend on the changes. The results are the same whatever was asked before. */
export function createMiddleEar(): MiddleEar {
  const normals = new Map([me1, ...alternates].map((set) => [set.id, normalEar(set)] as const))
  const pairs = new WeakMap<readonly EarChange[], ReadonlyMap<ParameterSetId, EarPair | undefined>>()
  const frequencies = new Map<number, AtFrequency>()

  function pairOf(set: ParameterSet, changes: readonly EarChange[]): EarPair | undefined {
    const known = pairs.get(changes)
    if (known !== undefined) return known.get(set.id)
    const made = new Map(
      [me1, ...alternates].map((of) => [of.id, earPair(of, normals.get(of.id) ?? normalEar(of), changes)] as const),
    )
    pairs.set(changes, made)
    return made.get(set.id)
  }

  function at(frequencyHz: number): AtFrequency {
    const known = frequencies.get(frequencyHz)
    if (known !== undefined) return known
    if (frequencies.size >= rememberedFrequencies) frequencies.clear()
    const made = { acoustics: new Map(), steps: new Map(), references: new Map() }
    frequencies.set(frequencyHz, made)
    return made
  }

  function respond(ear: Ear, drive: Drive, frequencyHz: number): Response | undefined {
    const key = `${ear.set.id} ${ear.cavity}`
    const acoustics = remembered(at(frequencyHz).acoustics, key, () => ear.set.acousticsAt(frequencyHz, ear.cavity))
    return responseOf(ear, acoustics, drive, frequencyHz)
  }

  function answer(ear: Ear, drive: Drive, frequencyHz: number): Answer | undefined {
    const response = respond(ear, drive, frequencyHz)
    if (response === undefined) return undefined
    if (ear.set !== me1 || magnitude(response.outlet) === 0) return { response, shifts: [] }
    const steps = remembered(at(frequencyHz).steps, ear.cavity, () => eardrumSteps(frequencyHz, ear.cavity))
    return { response, shifts: outletShifts(response, steps, frequencyHz) }
  }

  function reference(ear: Ear, drive: Drive, frequencyHz: number): Answer | undefined {
    if (ear !== normals.get(ear.set.id)) return answer(ear, drive, frequencyHz)
    const key = `${ear.set.id} ${drive.by === 'sound' ? 'sound' : `${drive.site} ${drive.actuator}`}`
    return remembered(at(frequencyHz).references, key, () => answer(ear, drive, frequencyHz))
  }

  /** Amplitudes of changed over reference ear; undefined where the set has no word for changes or drive. */
  function compared(set: ParameterSet, changes: readonly EarChange[], drive: Drive, frequencyHz: number) {
    const pair = pairOf(set, changes)
    const before = pair && reference(pair.reference, drive, frequencyHz)
    const after = pair && answer(pair.changed, drive, frequencyHz)
    if (before === undefined || after === undefined) return undefined
    return { ratio: magnitude(after.response.outlet) / magnitude(before.response.outlet), before, after }
  }

  function alternatesDb(changes: readonly EarChange[], drive: Drive, frequencyHz: number) {
    return alternates.flatMap((set) => {
      const found = compared(set, changes, drive, frequencyHz)
      const db = found && levelOf(found.ratio, drive, changes)
      return db === undefined || db === Number.NEGATIVE_INFINITY ? [] : [[set.id, db] as const]
    })
  }

  return {
    driveChange(changes, drive, frequencyHz) {
      requireNetworkFrequency(frequencyHz)
      requireChanges(changes)
      requireDrive(drive)
      const base = compared(me1, changes, drive, frequencyHz)
      if (base === undefined) return { kind: 'no-drive', reason: 'site-missing' }
      const bestDb = levelOf(base.ratio, drive, changes)
      if (bestDb === Number.NEGATIVE_INFINITY) return { kind: 'no-drive', reason: 'route-interrupted' }
      const bySet = { 'ME-1': bestDb, ...Object.fromEntries(alternatesDb(changes, drive, frequencyHz)) }
      const all = Object.values(bySet)
      const byParameters = base.ratio === 0 ? 0 : sdOfChangeDb(base.after.shifts, base.before.shifts)
      return {
        kind: 'change',
        bestDb,
        parameterSdDb: byParameters * shareOfChain(base.ratio, drive),
        contactSdDb: contactOf(changes, drive).sdDb,
        setsDb: { low: Math.min(...all), high: Math.max(...all), bySet },
        confidence: confidenceAt(frequencyHz, changes),
      }
    },
  }
}

function remembered<Key, Value>(memory: Map<Key, Value>, key: Key, make: () => Value): Value {
  const known = memory.get(key)
  if (known !== undefined) return known
  const made = make()
  memory.set(key, made)
  return made
}

/** The change in dB, with the acoustic route for sound and the loss of contact for an actuator. */
function levelOf(ratio: number, drive: Drive, changes: readonly EarChange[]): number {
  if (drive.by === 'sound') return decibels((ratio + floor) / (1 + floor))
  return decibels(ratio) - contactOf(changes, drive).lossDb
}

/** What a dB of the chain is worth in dB of the whole, once the acoustic route carries part of the sound. */
const shareOfChain = (ratio: number, drive: Drive): number => (drive.by === 'sound' ? ratio / (ratio + floor) : 1)

function contactOf(changes: readonly EarChange[], drive: Drive): { readonly lossDb: number; readonly sdDb: number } {
  if (drive.by === 'sound') return { lossDb: 0, sdDb: 0 }
  const contacts = changes.filter((change) => change.kind === 'contact-loss')
  return {
    lossDb: contacts.reduce((sum, { lossDb }) => sum + lossDb, 0),
    sdDb: Math.hypot(...contacts.map(({ sdDb }) => sdDb)),
  }
}

function confidenceAt(frequencyHz: number, changes: readonly EarChange[]): 'trusted' | 'low' {
  const inBand = frequencyHz >= trustedHz.low && frequencyHz <= trustedHz.high
  return inBand && !changes.some(isExploratory) ? 'trusted' : 'low'
}
