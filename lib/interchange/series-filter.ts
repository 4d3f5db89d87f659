import { CalendarDay } from '../board/identity.ts'
import { CouplingSite, DeviceClass } from '../devices/classes.ts'
import { mostTags, Pathology, Tag } from '../devices/pathology.ts'
import { chainStates } from '../outcomes/series-case.ts'
import { type ResultAt, resultPlaces } from '../outcomes/series-result.ts'
import type { Selection } from '../outcomes/series-selection.ts'
import { type GainMeasure, gainMeasures } from '../outcomes/site-comparison.ts'
import { Ear } from '../units/frequencies.ts'

/** What a series is asked for, as it stands in an address: `class`, `site`, `pathology`, `chain`, `ear`, `from`, `to`, `tag`, `at`, `first`, `second`, `measure`. */
export interface SeriesFilter extends Selection {
  readonly at: ResultAt
  /** sites to compare; absent: those with most ears */
  readonly first?: CouplingSite | undefined
  readonly second?: CouplingSite | undefined
  /** of the comparison and of the size of a study */
  readonly measure: GainMeasure
}

export const filterFields = [
  'class',
  'site',
  'pathology',
  'chain',
  'ear',
  'from',
  'to',
  'tag',
  'at',
  'first',
  'second',
  'measure',
] as const
export type FilterField = (typeof filterFields)[number]

export type ReadFilter =
  | { readonly ok: true; readonly filter: SeriesFilter }
  | { readonly ok: false; readonly field: string; readonly value: string }

/** @returns the first parameter that is not known or has no such value */
export function readFilter(query: URLSearchParams): ReadFilter {
  for (const field of query.keys()) {
    const isKnown = (filterFields as readonly string[]).includes(field)
    const values = query.getAll(field)
    const most = field === 'tag' ? mostTags : 1
    if (!isKnown || values.length > most) return { ok: false, field, value: values.at(-1) ?? '' }
  }
  const filter: Writable = { at: 'latest', measure: 'effective-gain' }
  for (const field of filterFields)
    for (const value of query.getAll(field)) if (!take(filter, field, value)) return { ok: false, field, value }
  if (filter.from !== undefined && filter.to !== undefined && filter.from > filter.to)
    return { ok: false, field: 'to', value: filter.to }
  if (filter.first !== undefined && filter.first === filter.second)
    return { ok: false, field: 'second', value: filter.second }
  return { ok: true, filter }
}

type Writable = { -readonly [K in keyof SeriesFilter]: SeriesFilter[K] }

/** @returns whether the field may have this value */
function take(filter: Writable, field: FilterField, value: string): boolean {
  switch (field) {
    case 'class':
      filter.deviceClass = among(DeviceClass.options, value)
      return filter.deviceClass !== undefined
    case 'site':
    case 'first':
    case 'second':
      filter[field] = among(CouplingSite.options, value)
      return filter[field] !== undefined
    case 'pathology':
      filter.pathology = among(Pathology.options, value)
      return filter.pathology !== undefined
    case 'chain':
      filter.chain = among(chainStates, value)
      return filter.chain !== undefined
    case 'ear':
      filter.ear = among(Ear.options, value)
      return filter.ear !== undefined
    case 'from':
    case 'to':
      filter[field] = value
      return CalendarDay.safeParse(value).success
    case 'tag':
      filter.tags = [...(filter.tags ?? []), value]
      return Tag.safeParse(value).success
    case 'at': {
      const at = among(resultPlaces, value)
      if (at !== undefined) filter.at = at
      return at !== undefined
    }
    case 'measure': {
      const measure = among(gainMeasures, value)
      if (measure !== undefined) filter.measure = measure
      return measure !== undefined
    }
    default:
      return field satisfies never
  }
}

const among = <T extends string>(options: readonly T[], value: string): T | undefined =>
  options.find((option) => option === value)
