import * as z from 'zod/mini'

/** Sides of the space that a body takes, with 0.1 to 60 mm each. */
export const BodyDimension = z.enum(['diameter', 'length', 'width', 'height', 'bed-depth'])
export type BodyDimension = z.infer<typeof BodyDimension>

/** How the distance lies in the scan: slices are often thicker than the voxels within one. */
export const MeasuringDirection = z.enum(['within-slice', 'across-slices', 'oblique'])
export type MeasuringDirection = z.infer<typeof MeasuringDirection>

/** Room for one dimension of a body, measured in a scan. */
export const RoomMeasurement = z.strictObject({
  roomFor: BodyDimension,
  /** between bone and bone, mm */
  distanceMm: z.number().check(z.minimum(0), z.maximum(100)),
  /** edge of a voxel within the slice, mm */
  voxelMm: z.number().check(z.minimum(0.01), z.maximum(5)),
  /** distance of neighbouring slices, mm; absent: that of the voxels */
  sliceSpacingMm: z.optional(z.number().check(z.minimum(0.01), z.maximum(10))),
  direction: MeasuringDirection,
  /** standard deviation of one reader placing both ends, mm */
  observerSdMm: z.number().check(z.minimum(0), z.maximum(5)),
})
export type RoomMeasurement = z.infer<typeof RoomMeasurement>
