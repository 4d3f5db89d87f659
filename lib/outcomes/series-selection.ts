import type { CouplingSite, DeviceClass } from '../devices/classes.ts'
import type { Pathology } from '../devices/pathology.ts'
import type { Ear } from '../units/frequencies.ts'
import { type ChainState, chainStateOf, type SeriesCase } from './series-case.ts'

/** Which ears a series is made of; what is absent leaves all in. */
export interface Selection {
  readonly deviceClass?: DeviceClass | undefined
  readonly site?: CouplingSite | undefined
  readonly pathology?: Pathology | undefined
  readonly chain?: ChainState | undefined
  readonly ear?: Ear | undefined
  /** calendar days of the operation, both included */
  readonly from?: string | undefined
  readonly to?: string | undefined
  /** all of them */
  readonly tags?: readonly string[] | undefined
}

export function isSelected(of: SeriesCase, wanted: Selection): boolean {
  const { deviceClass, site, pathology, chain, ear, from, to, tags = [] } = wanted
  return (
    isAs(deviceClass, of.deviceClass) &&
    isAs(site, of.couplingSite) &&
    isAs(pathology, of.pathology) &&
    isAs(ear, of.ear) &&
    (chain === undefined || chainStateOf(of) === chain) &&
    isWithin(of.operatedOn, from, to) &&
    tags.every((tag) => of.tags.includes(tag))
  )
}

const isAs = <T>(wanted: T | undefined, is: T | null): boolean => wanted === undefined || wanted === is

/** An ear without a day of operation is in no span of time. */
function isWithin(day: string | null, from: string | undefined, to: string | undefined): boolean {
  if (from === undefined && to === undefined) return true
  return day !== null && (from === undefined || day >= from) && (to === undefined || day <= to)
}

/**
 * One ear a patient, the one operated on first: two ears of one head are not independent, and every interval would be too
 * narrow.
 */
export function onePerPatient(cases: readonly SeriesCase[]): readonly SeriesCase[] {
  const first = new Map<string, SeriesCase>()
  for (const each of cases) {
    const known = first.get(each.patient)
    if (known === undefined || isEarlier(each, known)) first.set(each.patient, each)
  }
  return cases.filter((each) => first.get(each.patient) === each)
}

const isEarlier = (a: SeriesCase, b: SeriesCase): boolean =>
  (a.operatedOn ?? '9') < (b.operatedOn ?? '9') || (a.operatedOn === b.operatedOn && a.id < b.id)
