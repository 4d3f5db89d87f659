import type { ActuatorSite } from '../devices/drives.ts'
import { type EarChange, exploratoryKinds, type Joint, type Ligament } from '../devices/ear-changes.ts'
import { incusAxisValues, me1Values } from './me-1-values.ts'
import { type Direction, type Ear, normalEar, type ParameterSet, type Part, part, type Role } from './network.ts'

/** A ligament in which nothing gives way, and a joint grown together: so many times the normal stiffness, or N/m. */
const fixedTimes = 1e6
const ankylosedNPerM = 1e9

/** Point numbers of the two exploratory motions; all six points are unknown once one of them is assumed. */
const axisPoint = 4
const thirdWindowPoint = 5
const rigidNPerM = 1e15
const onAxis: Direction = [0, 0, 0, 0, 1]
const throughThirdWindow: Direction = [0, 0, 0, 0, 0, 1]

type Kind = EarChange['kind']
type OfKind<K extends Kind> = Extract<EarChange, { kind: K }>
/** The ear with one more change; undefined when the parameter set has no word for it. */
type Effect<K extends Kind> = (ear: Ear, change: OfKind<K>) => Ear | undefined

const ligamentRoles: Record<Ligament, readonly Role[]> = {
  malleus: ['malleus-ligaments'],
  incus: ['incus-ligaments'],
  'malleus-and-incus': ['malleus-ligaments', 'incus-ligaments'],
  annular: ['annular-ligament'],
}
const jointRoles: Record<Joint, Role> = {
  'malleus-incus': 'malleus-incus-joint',
  'incus-stapes': 'incus-stapes-joint',
}

const effects: { readonly [K in Kind]: Effect<K> } = {
  'ligament-stiffened': (ear, { ligament, times }) => stiffened(ear, ligamentRoles[ligament], times),
  'ligament-fixed': (ear, { ligament }) => stiffened(ear, ligamentRoles[ligament], fixedTimes),
  'incus-bridge': (ear, { stiffnessNPerM }) => resting(ear, 'incus-body', { stiffness: stiffnessNPerM }),
  'joint-slack': (ear, { joint, factor }) => weakened(ear, jointRoles[joint], factor),
  'joint-ankylosed': (ear, { joint }) => beside(ear, jointRoles[joint], ankylosedNPerM),
  'incus-stapes-apart': (ear) => weakened(ear, 'incus-stapes-joint', 0),
  'incus-missing': (ear) => {
    const apart = weakened(ear, 'incus-stapes-joint', 0)
    const gone = apart && weakened(apart, 'malleus-incus-joint', 0)
    return gone && without(gone, ['incus-body', 'incus-long-process'])
  },
  'stapes-superstructure-missing': (ear) => {
    const apart = weakened(ear, 'incus-stapes-joint', 0)
    return apart && without(apart, ['stapes-head'])
  },
  'cavity-open': (ear) => (ear.set.hasCavity ? { ...ear, cavity: 'open' } : undefined),
  'eardrum-absent': (ear) => weakened(ear, 'eardrum-coupling', 0),
  'mass-added': (ear, { site, massMg }) => resting(ear, site, { mass: massMg * 1e-6 }),
  'contact-loss': (ear) => ear,
  'incus-axis-compliant': (ear, { stiffnessNPerM }) => axisYielding(ear, stiffnessNPerM),
  'third-window': (ear, { complianceM5PerN }) => thirdWindow(ear, complianceM5PerN),
}

const applied = <K extends Kind>(ear: Ear, kind: K, change: OfKind<K>): Ear | undefined => effects[kind](ear, change)

function afterAll(from: Ear, changes: readonly EarChange[]): Ear | undefined {
  let ear: Ear | undefined = from
  for (const change of changes) ear = ear && applied(ear, change.kind, change)
  return ear
}

/** A changed ear beside the ear that it is held against. */
export interface EarPair {
  readonly reference: Ear
  readonly changed: Ear
}

export const isExploratory = ({ kind }: EarChange): boolean => exploratoryKinds.includes(kind)

/**
 * The normal ear of a set, and what the changes make of it. Exploratory assumptions hold for both, since they are about
 * how ears are, not about what is wrong with this one.
 * @returns undefined when the set cannot express one of the changes
 */
export function earPair(set: ParameterSet, normal: Ear, changes: readonly EarChange[]): EarPair | undefined {
  const reference = afterAll(normal, changes.filter(isExploratory))
  const pathology = changes.filter((change) => !isExploratory(change))
  const changed = reference && afterAll(reference, pathology)
  if (reference === undefined || changed === undefined) return undefined
  if (changed === reference || set.dampingOf === undefined) return { reference, changed }
  return { reference, changed: { ...changed, damping: set.dampingOf(changed.parts) } }
}

/** The ear that a list of changes makes of a parameter set, for looking at the network itself. */
export function changedEar(set: ParameterSet, changes: readonly EarChange[]): Ear {
  const pair = earPair(set, normalEar(set), changes)
  if (pair === undefined) throw new RangeError(`changes are not all expressible in ${set.id}`)
  return pair.changed
}

const more = (ear: Ear, parts: readonly Part[]): Ear => ({ ...ear, parts: [...ear.parts, ...parts] })

const published = (ear: Ear, role: Role): Part | undefined => ear.set.parts.find((own) => own.role === role)

/**
 * New bone or scar beside a ligament: (times - 1) of the published stiffness is added. In malleus and incus it does not
 * vary with the ligament of the ear at hand; in the annular ligament, where the ligament itself grows stiff, it does.
 */
function stiffened(ear: Ear, roles: readonly Role[], times: number): Ear | undefined {
  const ligaments = roles.map((role) => published(ear, role))
  if (ligaments.includes(undefined)) return undefined
  const added = ligaments.flatMap((ligament) => {
    if (ligament === undefined) return []
    const role = ligament.role === 'annular-ligament' ? ligament.role : 'added'
    return [part(role, ligament.along, { stiffness: (times - 1) * ligament.stiffness })]
  })
  return more(ear, added)
}

/** Stiffness and loss of everything in that role, times `factor`. */
function weakened(ear: Ear, role: Role, factor: number): Ear | undefined {
  if (published(ear, role) === undefined) return undefined
  const parts = ear.parts.map((own) =>
    own.role === role ? { ...own, stiffness: own.stiffness * factor, resistance: own.resistance * factor } : own,
  )
  return { ...ear, parts }
}

function beside(ear: Ear, role: Role, stiffness: number): Ear | undefined {
  const joint = published(ear, role)
  return joint && more(ear, [part('added', joint.along, { stiffness })])
}

function resting(ear: Ear, site: ActuatorSite, values: Partial<Pick<Part, 'mass' | 'stiffness'>>): Ear | undefined {
  const along = ear.set.sites[site]
  return along && more(ear, [part('added', along, values)])
}

function without(ear: Ear, gone: readonly ActuatorSite[]): Ear {
  const sites = Object.fromEntries(Object.entries(ear.sites).filter(([site]) => !gone.some((name) => name === site)))
  return { ...ear, sites }
}

const sixPoints = 6

/** Both exploratory motions belong to the base set, whose other directions leave room for them. */
function extended(ear: Ear): Ear | undefined {
  if (ear.set.id !== 'ME-1') return undefined
  if (ear.points === sixPoints) return ear
  const held = [onAxis, throughThirdWindow].map((along) => part('added', along, { stiffness: rigidNPerM }))
  return more({ ...ear, points: sixPoints }, held)
}

/** Removes what holds a motion, so that the spring given instead of it counts. */
const released = (ear: Ear, point: number): Ear => ({
  ...ear,
  parts: ear.parts.filter(({ along, stiffness }) => stiffness !== rigidNPerM || along[point] !== 1),
})

function axisYielding(ear: Ear, stiffness: number): Ear | undefined {
  const wide = extended(ear)
  const { coupledMass, axisMass, resistance } = incusAxisValues
  return (
    wide &&
    more(released(wide, axisPoint), [
      part('added', [0, 0, 1, 0, 1], { mass: coupledMass.value }),
      // what the tip shares with the axis is already part of its own mass
      part('added', [0, 0, 1], { mass: -coupledMass.value }),
      part('added', onAxis, { mass: axisMass.value - coupledMass.value, resistance: resistance.value, stiffness }),
    ])
  )
}

function thirdWindow(ear: Ear, complianceM5PerN: number): Ear | undefined {
  const wide = extended(ear)
  return (
    wide &&
    more(released(wide, thirdWindowPoint), [
      part('added', throughThirdWindow, { stiffness: me1Values.A_FP.value ** 2 / complianceM5PerN }),
    ])
  )
}
