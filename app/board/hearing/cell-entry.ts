import { typeOneLimits } from '@/lib/audiometry/audiometer-limits.ts'
import type { Point, PointPlace } from '@/lib/board/records/hearing-test.ts'
import { type PointFault, readPoint } from '@/lib/interchange/point-text.ts'
import type { DbHl } from '@/lib/units/levels.ts'

/** The usual highest level of an audiometer at a place, in dB HL; unknown outside the conventional range. */
export function usualLimit({ route, frequency }: PointPlace): number | undefined {
  return route === 'air' || route === 'bone' ? typeOneLimits[route][frequency] : undefined
}

/** What a key or a typed text asks for in one cell. */
export type CellWish =
  | { readonly kind: 'set'; readonly point: Point | undefined }
  | { readonly kind: 'fault'; readonly fault: PointFault }

/** A typed text taken as the point of its cell; empty means not tested. */
export function wishOfText(text: string, place: PointPlace): CellWish {
  const reading = readPoint(text, usualLimit(place))
  if (reading.kind === 'fault') return reading
  return { kind: 'set', point: reading.kind === 'nothing' ? undefined : reading.point }
}

/** "No response": at the typed level, else at the level that stands there, else at the audiometer's usual limit. */
export function wishOfNoResponse(text: string, point: Point | undefined, place: PointPlace): CellWish {
  const typed = text.trim() === '' ? levelIn(point) : text
  const reading = readPoint(`NR ${typed}`, usualLimit(place))
  if (reading.kind !== 'fault') return { kind: 'set', point: reading.kind === 'nothing' ? undefined : reading.point }
  return reading.fault.code === 'not-a-level' ? wishOfText(text, place) : reading
}

function levelIn(point: Point | undefined): string {
  if (point === undefined || point.kind === 'could-not-test') return ''
  return String(point.kind === 'heard' ? point.level : point.limit)
}

export type RepeatReading =
  | { readonly kind: 'level'; readonly level: DbHl | undefined }
  | { readonly kind: 'fault'; readonly fault: PointFault | { readonly code: 'not-heard' } }

/** The repeat at 1 kHz as typed: a level, or nothing. "No response" a second time is no level to compare. */
export function repeatOf(text: string): RepeatReading {
  const reading = readPoint(text, usualLimit({ route: 'air', masked: false, frequency: 1000 }))
  if (reading.kind === 'nothing') return { kind: 'level', level: undefined }
  if (reading.kind === 'fault') return reading
  if (reading.point.kind !== 'heard') return { kind: 'fault', fault: { code: 'not-heard' } }
  return { kind: 'level', level: reading.point.level }
}

/** A remark on a point that was accepted all the same. */
export type CellRemark = { readonly code: 'off-grid' } | { readonly code: 'beyond'; readonly limit: number }

export function remarksOn(point: Point | undefined, place: PointPlace): CellRemark[] {
  if (point === undefined || point.kind === 'could-not-test') return []
  const level = point.kind === 'heard' ? point.level : point.limit
  const limit = usualLimit(place)
  return [
    ...(level % 5 === 0 ? [] : [{ code: 'off-grid' } as const]),
    ...(limit === undefined || level <= limit ? [] : [{ code: 'beyond', limit } as const]),
  ]
}
