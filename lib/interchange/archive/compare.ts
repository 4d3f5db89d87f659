import { kindNames } from '../../board/records.ts'
import { type CanonicalValue, canonicalJson } from '../canonical-json.ts'
import type { CaseRecords } from '../case-records.ts'

/** How many records of a kind are only in the archive, the same here, different here, or only here. */
export interface KindComparison {
  readonly kind: string
  readonly inArchive: number
  readonly onlyInArchive: number
  readonly same: number
  readonly differs: number
  readonly onlyHere: number
}

/** Holds an archive against the case as it stands here, record by record; kinds without any record are left out. */
export function compareRecords(archive: CaseRecords, here: CaseRecords | undefined): KindComparison[] {
  return kindNames
    .map((kind) => compareKind(kind, archive[kind], here?.[kind] ?? []))
    .filter(({ inArchive, onlyHere }) => inArchive > 0 || onlyHere > 0)
}

type Identified = { readonly id: string }

function compareKind(kind: string, archive: readonly Identified[], here: readonly Identified[]): KindComparison {
  const known = new Map(here.map((record) => [record.id, written(record)]))
  const ids = new Set(archive.map(({ id }) => id))
  const shared = archive.filter(({ id }) => known.has(id))
  const same = shared.filter((record) => known.get(record.id) === written(record)).length
  return {
    kind,
    inArchive: archive.length,
    onlyInArchive: archive.length - shared.length,
    same,
    differs: shared.length - same,
    onlyHere: here.filter(({ id }) => !ids.has(id)).length,
  }
}

const written = (record: Identified): string => canonicalJson(record as unknown as CanonicalValue)
