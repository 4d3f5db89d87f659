import * as z from 'zod/mini'
import { RoomMeasurement } from '../../devices/room-measurement.ts'
import { Ear } from '../../units/frequencies.ts'
import { CalendarDay, LongText, stampFields } from '../identity.ts'

/** Where a distance was measured: places that decide whether a body fits, in the words of the trade. */
export const FitPlace = z.enum([
  'facial-recess-width',
  'round-window-niche',
  'round-window-membrane-diameter',
  'incus-body-to-tegmen',
  'incus-body-to-lateral-attic-wall',
  'incus-long-process-diameter',
  'stapes-head-to-promontory',
  'mastoid-depth',
  'transducer-site-bone-thickness',
])
export type FitPlace = z.infer<typeof FitPlace>

export const ImagingKind = z.enum(['multislice-ct', 'cone-beam-ct', 'mri'])
export type ImagingKind = z.infer<typeof ImagingKind>

const { roomFor, distanceMm, voxelMm, sliceSpacingMm, direction, observerSdMm } = RoomMeasurement.shape

/** A distance measured in a scan, with all that its error depends on. */
export const FitMeasurement = z.strictObject({
  ...stampFields,
  ear: Ear,
  place: FitPlace,
  /** the side of a body that has to pass or lie here; absent: the distance is for reading alone */
  roomFor: z.optional(roomFor),
  distanceMm,
  imaging: ImagingKind,
  voxelMm,
  sliceSpacingMm,
  direction,
  /** absent: that of a usual reader */
  observerSdMm: z.optional(observerSdMm),
  scannedOn: z.optional(CalendarDay),
  remark: LongText,
})
export type FitMeasurement = z.infer<typeof FitMeasurement>
