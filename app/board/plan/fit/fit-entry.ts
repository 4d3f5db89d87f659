import type { FitMeasurement } from '@/lib/board/records/fit-measurement.ts'
import { FitMeasurement as Schema } from '@/lib/board/records/fit-measurement.ts'

export type FitContent = Omit<FitMeasurement, 'id' | 'author' | 'at' | 'ear'>

export type FitReading =
  | { readonly ok: true; readonly content: FitContent }
  /** names of the fields that are out of their domain */
  | { readonly ok: false; readonly fields: readonly string[] }

const numeric = ['distanceMm', 'voxelMm', 'sliceSpacingMm'] as const
const stamp = { id: 'entry', author: 'entry', at: '2000-01-01T00:00:00.000Z', ear: 'right' }

/** What a form holds, as a measurement; a decimal comma is a decimal point, and what is left empty is absent. */
export function readFit(entries: Readonly<Record<string, unknown>>): FitReading {
  const given = Object.entries(entries).filter(([, value]) => value !== '')
  const fields = given.map(([name, value]) => [name, isNumeric(name) ? numberIn(value) : value])
  const parsed = Schema.safeParse({ ...stamp, remark: '', ...Object.fromEntries(fields) })
  if (!parsed.success) return { ok: false, fields: parsed.error.issues.map(({ path }) => String(path[0])) }
  const { id: _id, author: _author, at: _at, ear: _ear, ...content } = parsed.data
  return { ok: true, content }
}

const isNumeric = (name: string): boolean => numeric.some((each) => each === name)
const numberIn = (value: unknown): number =>
  typeof value === 'string' ? Number(value.trim().replace(',', '.')) : Number.NaN
