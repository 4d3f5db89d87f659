import { type ChartRange, nearestFrequency, nearestStep } from '@/app/audiogram/geometry.ts'
import { levelOf } from '@/app/audiogram/layers.ts'
import type { ChartPointing } from '@/app/audiogram/pointing.ts'
import {
  type HearingTest,
  type Point,
  type PointKey,
  type PointPlace,
  pointKey,
} from '@/lib/board/records/hearing-test.ts'
import type { FrequencyHz } from '@/lib/units/frequencies.ts'
import { DbHl } from '@/lib/units/levels.ts'

/** What the pointer enters: signs of one route and masking, at these frequencies. */
export interface Brush {
  readonly route: PointPlace['route']
  readonly masked: boolean
  readonly frequencies: readonly FrequencyHz[]
}

/** What would be entered if the pointer were let go now. `from` is the sign that was taken up, if any. */
export interface Stroke {
  readonly frequency: FrequencyHz
  readonly level: number
  readonly from: FrequencyHz | undefined
  readonly moved: boolean
}

/** Points to set, and to take away (undefined). */
export type PointChanges = ReadonlyMap<PointKey, Point | undefined>

/** How near a press must be to a sign of the brush to take it up, in dB. */
const reachDb = 7.5

/** Where the pointer is, on the nearest frequency and 5 dB step. */
export function strokeAt(
  { hz, dbHl }: Pick<ChartPointing, 'hz' | 'dbHl'>,
  brush: Brush,
  range: ChartRange,
  points: HearingTest['points'],
): Stroke {
  const frequency = nearestFrequency(hz, brush.frequencies)
  const there = points[pointKey({ ...brush, frequency })]
  const level = there === undefined ? undefined : levelOf(there)
  if (level !== undefined && Math.abs(level - dbHl) <= reachDb)
    return { frequency, level, from: frequency, moved: false }
  return { frequency, level: nearestStep(dbHl, range), from: undefined, moved: false }
}

/** The stroke after the pointer went on with the button down. */
export function strokeMoved(
  stroke: Stroke,
  { hz, dbHl }: Pick<ChartPointing, 'hz' | 'dbHl'>,
  brush: Brush,
  range: ChartRange,
): Stroke {
  const frequency = nearestFrequency(hz, brush.frequencies)
  const level = nearestStep(dbHl, range)
  const stays = frequency === stroke.frequency && Math.abs(dbHl - stroke.level) <= reachDb
  return stays && !stroke.moved ? stroke : { ...stroke, frequency, level, moved: true }
}

/** The point that a stroke would leave: a press on a sign turns heard into no response and back, a drag keeps its kind. */
export function pointOf(stroke: Stroke, brush: Brush, points: HearingTest['points']): Point {
  const level = DbHl.parse(stroke.level)
  const from = stroke.from === undefined ? undefined : points[pointKey({ ...brush, frequency: stroke.from })]
  const silent = stroke.moved ? from?.kind === 'no-response' : from?.kind === 'heard'
  return silent ? { kind: 'no-response', limit: level } : { kind: 'heard', level }
}

/** The edits of a stroke that was let go. */
export function changesOf(stroke: Stroke, brush: Brush, points: HearingTest['points']): PointChanges {
  const changes = new Map<PointKey, Point | undefined>()
  if (stroke.from !== undefined && stroke.from !== stroke.frequency)
    changes.set(pointKey({ ...brush, frequency: stroke.from }), undefined)
  changes.set(pointKey({ ...brush, frequency: stroke.frequency }), pointOf(stroke, brush, points))
  return changes
}
