import { add, type Complex, complex, multiply, one, scale, subtract } from './complex.ts'
import { type AcousticValues, acousticValues, eardrumImpedance } from './me-1.ts'
import { seenAlong } from './mobility.ts'
import { type Cavity, type Direction, type Ear, impedanceOf, type Part, part, type Role } from './network.ts'
import type { Response } from './response.ts'

type Quantity = 'mass' | 'resistance' | 'stiffness'

/** Variation coefficients between ears. Chosen for this board, guided by Lobato et al. 2022: stiffness varies most. */
export const variation = { spring: 0.5, resistance: 0.5, cochlea: 0.3, mass: 0.2, area: 0.1 } as const

/** Standard deviation of the logarithm of a log-normal quantity. */
const logSd = (coefficient: number): number => Math.sqrt(Math.log(1 + coefficient ** 2))

/** A quantity that differs between ears: which parts of the network follow it, with which power. */
interface Uncertain {
  readonly name: string
  readonly parts: readonly (readonly [Role, Quantity])[]
  readonly sd: number
}

const own = (role: Role, quantity: Quantity, coefficient: number): Uncertain => ({
  name: `${role} ${quantity}`,
  parts: [[role, quantity]],
  sd: logSd(coefficient),
})

const { spring, resistance, cochlea, mass, area } = variation

const mechanical: readonly Uncertain[] = [
  own('eardrum-coupling', 'stiffness', spring),
  own('eardrum-coupling', 'resistance', resistance),
  own('malleus', 'mass', mass),
  own('malleus', 'resistance', resistance),
  own('malleus-ligaments', 'stiffness', spring),
  own('malleus-incus-joint', 'stiffness', spring),
  own('malleus-incus-joint', 'resistance', resistance),
  own('incus', 'mass', mass),
  own('incus', 'resistance', resistance),
  own('incus-ligaments', 'stiffness', spring),
  own('incus-stapes-joint', 'stiffness', spring),
  own('incus-stapes-joint', 'resistance', resistance),
  own('stapes', 'mass', mass),
  own('annular-ligament', 'stiffness', spring),
  own('cochlea', 'resistance', cochlea),
  own('round-window', 'stiffness', spring),
  {
    name: 'footplate area',
    parts: [
      ['annular-ligament', 'stiffness'],
      ['cochlea', 'resistance'],
      ['round-window', 'stiffness'],
    ],
    // all three go with the square of the area
    sd: 2 * logSd(area),
  },
]

/** Half of the way from one standard deviation below to one above, for one quantity, dB. */
export interface Shift {
  readonly name: string
  readonly db: number
}

/** Changes of the impedance of the eardrum for each acoustic quantity at one frequency, down and up by one SD. */
export interface EardrumSteps {
  readonly steps: readonly { readonly name: string; readonly down: Complex; readonly up: Complex }[]
}

const inertances: readonly (keyof AcousticValues)[] = ['L_A', 'L_T1', 'L_T']

export function eardrumSteps(frequencyHz: number, cavity: Cavity): EardrumSteps {
  const nominal = eardrumImpedance(acousticValues, frequencyHz, cavity)
  const names = Object.keys(acousticValues) as (keyof AcousticValues)[]
  const steps = names.map((name) => {
    const sd = logSd(inertances.includes(name) ? mass : spring)
    const stepped = (by: number): Complex => {
      const values = { ...acousticValues, [name]: acousticValues[name] * Math.exp(by) }
      return subtract(eardrumImpedance(values, frequencyHz, cavity), nominal)
    }
    return { name, down: stepped(-sd), up: stepped(sd) }
  })
  const areaSd = 2 * logSd(area)
  const ofArea = {
    name: 'eardrum area',
    down: scale(nominal, Math.expm1(-areaSd)),
    up: scale(nominal, Math.expm1(areaSd)),
  }
  return { steps: [...steps, ofArea] }
}

/**
 * How far one standard deviation of each quantity moves the drive of the cochlea, dB, in a fixed order.
 *
 * Each element joins two points, so a change of it is a matrix of rank one and its effect is exact (Sherman and Morrison,
 * Ann Math Stat 21:124-127, 1950) with the mobility that is there already. The step is a whole standard deviation each way,
 * not a derivative, which keeps the resonance from exaggerating the spread.
 */
export function outletShifts(response: Response, { steps }: EardrumSteps, frequencyHz: number): readonly Shift[] {
  const { ear } = response
  const omega = 2 * Math.PI * frequencyHz
  const atEardrum = leverage(response, ear.set.soundAlong)
  const acoustic = steps.map(({ name, down, up }) => ({ name, db: halfStep(atEardrum, down, up) }))
  const levers = new Map<Direction, Leverage>()
  const chain = presentIn(ear).map(({ name, nominal, down, up }) => {
    if (nominal === undefined) return { name, db: 0 }
    const z = impedanceOf(nominal, omega)
    let lever = levers.get(nominal.along)
    if (lever === undefined) {
      lever = leverage(response, nominal.along)
      levers.set(nominal.along, lever)
    }
    return { name, db: halfStep(lever, scale(z, down), scale(z, up)) }
  })
  return [...acoustic, ...chain]
}

/** Standard deviation of the difference of two ears that vary together, dB. */
export function sdOfChangeDb(changed: readonly Shift[], reference: readonly Shift[]): number {
  return Math.hypot(...changed.map(({ db }, index) => db - (reference[index]?.db ?? 0)))
}

/** An uncertain quantity as it is in one ear; nothing where the ear has none of it. */
interface Present {
  readonly name: string
  readonly nominal: Part | undefined
  /** relative change at one standard deviation down and up */
  readonly down: number
  readonly up: number
}

/** An ear never changes, and every frequency asks again. */
const known = new WeakMap<Ear, readonly Present[]>()

function presentIn(ear: Ear): readonly Present[] {
  const before = known.get(ear)
  if (before !== undefined) return before
  const made = mechanical.map(({ name, parts, sd }) => ({
    name,
    nominal: parts.map((wanted) => totalOf(ear, wanted)).reduce(together),
    down: Math.expm1(-sd),
    up: Math.expm1(sd),
  }))
  known.set(ear, made)
  return made
}

/** That quantity alone, of all parts in the role. */
function totalOf({ parts }: Ear, [role, quantity]: readonly [Role, Quantity]): Part | undefined {
  return parts
    .filter((own) => own.role === role && own[quantity] !== 0)
    .map((own) => part(role, own.along, { [quantity]: own[quantity] }))
    .reduce<Part | undefined>(together, undefined)
}

function together(a: Part | undefined, b: Part | undefined): Part | undefined {
  if (a === undefined || b === undefined) return a ?? b
  const { role, along } = b
  return part(role, along, {
    mass: a.mass + b.mass,
    resistance: a.resistance + b.resistance,
    stiffness: a.stiffness + b.stiffness,
  })
}

/** What an impedance along a motion does to the outlet: factor = 1 - step * share / (1 + step * own). */
interface Leverage {
  readonly share: Complex
  readonly own: Complex
}

function leverage({ ear, source, mobility, outlet }: Response, along: Direction): Leverage {
  const arriving = multiply(source.force, seenAlong(mobility, along, source.along))
  const leaving = seenAlong(mobility, ear.outlet, along)
  const square = outlet.re ** 2 + outlet.im ** 2
  const share = multiply(multiply(arriving, leaving), complex(outlet.re / square, -outlet.im / square))
  return { share, own: seenAlong(mobility, along, along) }
}

const halfStep = (lever: Leverage, down: Complex, up: Complex): number =>
  5 * Math.log10(powerFactor(lever, up) / powerFactor(lever, down))

/** Square of the factor by which the outlet changes when the impedance changes by `step`. */
function powerFactor({ share, own: ownMobility }: Leverage, step: Complex): number {
  const loaded = add(one, multiply(step, ownMobility))
  return powerOf(subtract(loaded, multiply(step, share))) / powerOf(loaded)
}

const powerOf = ({ re, im }: Complex): number => re * re + im * im
