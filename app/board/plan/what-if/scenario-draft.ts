import type { FixationPlace, Scenario } from '@/lib/devices/scenario.ts'

type Fields = { readonly [F in keyof Scenario]?: Scenario[F] | undefined }

/** The scenario with other fields; `undefined` takes one away. */
export function patched(scenario: Scenario, patch: Fields): Scenario {
  const entries = Object.entries({ ...scenario, ...patch }).filter(([, value]) => value !== undefined)
  return Object.fromEntries(entries) as Scenario
}

/** A slider runs over the decades of a quantity, from normal at its left end. */
export interface Decades {
  positionOf(value: number): number
  valueAt(position: number): number
  readonly longest: number
}

/** Two digits are more than anybody knows of a fixation. */
const toTwoDigits = (value: number): number => Number(value.toPrecision(2))

/** Stiffness against normal, 1 to 1000. */
export const timesDecades: Decades = {
  positionOf: (times) => Math.log10(times),
  valueAt: (position) => toTwoDigits(10 ** position),
  longest: 3,
}

/** What is left of a joint, 100 to 1 %: the slacker, the farther to the right. */
export const leftDecades: Decades = {
  positionOf: (percent) => 2 - Math.log10(percent),
  valueAt: (position) => toTwoDigits(10 ** (2 - position)),
  longest: 2,
}

/** The smallest step of such a slider, in decades. */
export const decadeStep = 0.02

/** Where a fixation is tried first: the attic, or the stapes where there is no incus to be held. */
export const firstPlace = (incus: string): FixationPlace => (incus === 'missing' ? 'stapes' : 'malleus-and-incus')

/** A percentage that is left, as the share that a scenario holds; normal is nothing said. */
export const shareLeft = (percent: number): number | undefined => (percent >= 100 ? undefined : percent / 100)
export const percentLeft = (share: number | undefined): number =>
  share === undefined ? 100 : Number((100 * share).toPrecision(3))
