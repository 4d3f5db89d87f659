import * as z from 'zod/mini'
import type { ActuatorBody } from '../devices/actuator-body.ts'
import type { EvidenceSource } from '../devices/evidence-source.ts'
import { type BodyDimension, type MeasuringDirection, RoomMeasurement } from '../devices/room-measurement.ts'

/** SD of a distance in voxels: two edges of 0.5 voxel each. */
export const distanceSdVoxels = 0.7

/** Usual SD of a reader, mm: middle of 0.1 to 0.2. */
export const usualObserverSdMm = 0.15

/** Room that stays free around a body so that it can be placed, mm. */
export const fitMarginMm = 0.2

export const scanErrorRule: EvidenceSource = {
  id: 'scan-error',
  citation:
    'SD of a distance in a scan: 0.7 voxel (two edges of 0.5 voxel), with an observer SD of 0.1 to 0.2 mm; slice spacing counts as the voxel across slices; safe when what is left over exceeds a margin by two SD',
  status: 'approximate, from memory',
}

export const fitMarginChoice: EvidenceSource = {
  id: 'fit-margin',
  citation: 'A body needs 0.2 mm of free room beyond its envelope to be placed: chosen by this board, no source',
  status: 'assumption',
}

/** `too-close-to-call`: two SD of the scan reach across the margin; it is for theatre to measure. */
export type FitVerdict = 'fits' | 'too-close-to-call' | 'does-not-fit'

export type FitOfDimension =
  | {
      readonly kind: 'measured'
      readonly dimension: BodyDimension
      readonly needsMm: number
      readonly distanceMm: number
      /** distance less envelope; negative when the body is larger */
      readonly clearanceMm: number
      readonly sdMm: number
      readonly marginMm: number
      readonly verdict: FitVerdict
    }
  | { readonly kind: 'not-measured'; readonly dimension: BodyDimension; readonly needsMm: number }

export interface Fit {
  readonly body: ActuatorBody['id']
  readonly dimensions: readonly FitOfDimension[]
  /** the least favourable dimension; undefined while one of them is not measured and none already rules the body out */
  readonly verdict: FitVerdict | undefined
  readonly sources: readonly EvidenceSource[]
}

/**
 * Standard deviation of a distance measured in a scan, mm: sqrt((0.7 voxel)^2 + observer^2). Across slices their spacing is
 * the voxel, and obliquely the larger of both.
 * @throws RangeError naming the field that is out of its domain
 * Source: `scanErrorRule`. Checked by: tests/published/scan-error.test.ts
 */
export function distanceSdMm(measurement: RoomMeasurement): number {
  const { voxelMm, sliceSpacingMm = voxelMm, direction, observerSdMm } = requireMeasurement(measurement)
  return Math.hypot(distanceSdVoxels * voxelAlong(direction, voxelMm, sliceSpacingMm), observerSdMm)
}

function requireMeasurement(measurement: RoomMeasurement): RoomMeasurement {
  const { success, error } = RoomMeasurement.safeParse(measurement)
  if (!success) throw new RangeError(`the measurement is out of its domain: ${z.prettifyError(error)}`)
  return measurement
}

function voxelAlong(direction: MeasuringDirection, voxelMm: number, sliceSpacingMm: number): number {
  switch (direction) {
    case 'within-slice':
      return voxelMm
    case 'across-slices':
      return sliceSpacingMm
    case 'oblique':
      return Math.max(voxelMm, sliceSpacingMm)
    default:
      return direction satisfies never
  }
}

/**
 * Whether a body fits the room that was measured for it. It fits when clearance - 2 SD exceeds the margin, does not when
 * clearance + 2 SD falls short of it, and is otherwise too close to call. The narrowest measurement for a dimension counts.
 * @param marginMm free room wanted beyond the envelope, 0 or more
 * @throws RangeError naming what is out of its domain
 * Source: `scanErrorRule`, `fitMarginChoice`. Checked by: tests/published/scan-error.test.ts
 */
export function fitOf(
  body: ActuatorBody,
  measurements: readonly RoomMeasurement[],
  marginMm: number = fitMarginMm,
): Fit {
  if (!(marginMm >= 0 && Number.isFinite(marginMm)))
    throw new RangeError(`marginMm is ${marginMm}, but must be 0 or more`)
  const dimensions = body.envelope.map(({ dimension, mm }) => {
    const fits = measurements.filter(({ roomFor }) => roomFor === dimension).map((m) => fitOfDimension(m, mm, marginMm))
    const narrowest = fits.toSorted((a, b) => a.clearanceMm - 2 * a.sdMm - (b.clearanceMm - 2 * b.sdMm))[0]
    return narrowest ?? ({ kind: 'not-measured', dimension, needsMm: mm } as const)
  })
  return { body: body.id, dimensions, verdict: verdictOver(dimensions), sources: [scanErrorRule, fitMarginChoice] }
}

function fitOfDimension(measurement: RoomMeasurement, needsMm: number, marginMm: number) {
  const { roomFor, distanceMm } = measurement
  const sdMm = distanceSdMm(measurement)
  const clearanceMm = distanceMm - needsMm
  const verdict = verdictOf(clearanceMm - marginMm, 2 * sdMm)
  return { kind: 'measured', dimension: roomFor, needsMm, distanceMm, clearanceMm, sdMm, marginMm, verdict } as const
}

function verdictOf(spareMm: number, unsureMm: number): FitVerdict {
  if (spareMm > unsureMm) return 'fits'
  return spareMm < -unsureMm ? 'does-not-fit' : 'too-close-to-call'
}

function verdictOver(dimensions: readonly FitOfDimension[]): FitVerdict | undefined {
  const verdicts = dimensions.map((fit) => (fit.kind === 'measured' ? fit.verdict : undefined))
  if (verdicts.includes('does-not-fit')) return 'does-not-fit'
  if (verdicts.includes(undefined)) return undefined
  return verdicts.includes('too-close-to-call') ? 'too-close-to-call' : 'fits'
}
