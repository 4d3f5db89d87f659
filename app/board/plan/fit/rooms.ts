import type { FitMeasurement } from '@/lib/board/records/fit-measurement.ts'
import type { BodyDimension, RoomMeasurement } from '@/lib/devices/room-measurement.ts'
import { distanceSdMm, usualObserverSdMm } from '@/lib/forecast/fit-check.ts'
import type { Ear } from '@/lib/units/frequencies.ts'

/** A distance as the check of fit takes it; one that is for reading alone makes no room for anything. */
export const roomOf = (measurement: FitMeasurement): RoomMeasurement | undefined =>
  measurement.roomFor === undefined ? undefined : asRoom(measurement, measurement.roomFor)

/** Standard deviation of a distance, mm, whatever it is for. */
export const sdOf = (measurement: FitMeasurement): number => distanceSdMm(asRoom(measurement, 'width'))

function asRoom(measurement: FitMeasurement, roomFor: BodyDimension): RoomMeasurement {
  const { distanceMm, voxelMm, sliceSpacingMm, direction, observerSdMm = usualObserverSdMm } = measurement
  const room = { roomFor, distanceMm, voxelMm, direction, observerSdMm }
  return sliceSpacingMm === undefined ? room : { ...room, sliceSpacingMm }
}

/** Rooms of one ear. */
export const roomsOf = (measurements: readonly FitMeasurement[], ear: Ear): readonly RoomMeasurement[] =>
  measurements.filter((measurement) => measurement.ear === ear).flatMap((measurement) => roomOf(measurement) ?? [])
