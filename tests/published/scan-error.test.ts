// SD of a distance of 0.7 voxel: 0.1 mm cone beam 0.07 mm, 0.3: 0.2, 0.6: 0.4 mm, and the example that at 0.6 mm voxels a
// 2.6 mm recess against a 1.8 mm body is undecidable (2 SD = 0.9 mm). All approximate, from memory.
import { describe, expect, it } from 'vitest'
import type { ActuatorBody } from '../../lib/devices/actuator-body.ts'
import type { RoomMeasurement } from '../../lib/devices/room-measurement.ts'
import { distanceSdMm, fitOf } from '../../lib/forecast/fit-check.ts'
import { checkValue } from './record-check.ts'

const source = 'Error of distances in cone-beam scans, approximate, from memory'
const body: ActuatorBody = {
  id: 'floating-mass',
  drive: 'floating-mass',
  massMg: 25,
  envelope: [{ dimension: 'diameter', mm: 1.8 }],
  source: 'generic',
}
const recess = (given: Partial<RoomMeasurement> = {}): RoomMeasurement => ({
  roomFor: 'diameter',
  distanceMm: 2.6,
  voxelMm: 0.6,
  direction: 'within-slice',
  observerSdMm: 0.15,
  ...given,
})
const verdictOf = (given: Partial<RoomMeasurement>, marginMm?: number) => fitOf(body, [recess(given)], marginMm).verdict

it.each([
  { voxelMm: 0.1, expected: 0.07 },
  { voxelMm: 0.3, expected: 0.2 },
  { voxelMm: 0.6, expected: 0.4 },
])('has the SD of $voxelMm mm voxels alone', ({ voxelMm, expected }) => {
  checkValue({
    source,
    what: `SD of a distance with voxels of ${voxelMm} mm, mm`,
    expected,
    actual: distanceSdMm(recess({ voxelMm, observerSdMm: 0 })),
    tolerance: 0.025,
    why: 'given with one or two decimals',
  })
})

it('finds the example too close to call', () => {
  const { dimensions, verdict } = fitOf(body, [recess()])
  const [fit] = dimensions
  if (fit?.kind !== 'measured') throw new Error('expected a measured dimension')
  checkValue({
    source,
    what: 'two SD at 0.6 mm voxels with a reader of 0.15 mm, mm',
    expected: 0.9,
    actual: 2 * fit.sdMm,
    tolerance: 0.05,
    why: 'given with one decimal',
  })
  expect(fit.clearanceMm).toBeCloseTo(0.8, 12)
  expect(verdict).toBe('too-close-to-call')
  expect(verdictOf({}, 0)).toBe('too-close-to-call')
})

describe('the verdict on one dimension', () => {
  // 0.1 mm voxels: 2 SD = 0.33 mm; fits above 1.8 + 0.2 + 0.33, does not below 2.0 - 0.33
  it.each([
    { distanceMm: 2.4, expected: 'fits' },
    { distanceMm: 2.3, expected: 'too-close-to-call' },
    { distanceMm: 1.7, expected: 'too-close-to-call' },
    { distanceMm: 1.6, expected: 'does-not-fit' },
  ])('is "$expected" at $distanceMm mm in fine voxels', ({ distanceMm, expected }) => {
    expect(verdictOf({ distanceMm, voxelMm: 0.1 })).toBe(expected)
  })
  it('takes the spacing of the slices for the voxel across them', () => {
    const fine = { distanceMm: 2.6, voxelMm: 0.1, sliceSpacingMm: 0.6 }
    expect(verdictOf({ ...fine, direction: 'within-slice' })).toBe('fits')
    expect(verdictOf({ ...fine, direction: 'across-slices' })).toBe('too-close-to-call')
    expect(verdictOf({ ...fine, direction: 'oblique' })).toBe('too-close-to-call')
  })
})

describe('the verdict on a body', () => {
  const capsule: ActuatorBody = { ...body, envelope: [...body.envelope, { dimension: 'length', mm: 2.3 }] }
  const fine = (roomFor: 'diameter' | 'length', distanceMm: number) => recess({ roomFor, distanceMm, voxelMm: 0.1 })
  it('waits for every dimension, unless one rules it out', () => {
    expect(fitOf(capsule, [fine('diameter', 3)]).verdict).toBeUndefined()
    expect(fitOf(capsule, [fine('diameter', 1)]).verdict).toBe('does-not-fit')
  })
  it('is that of the least favourable dimension and the narrowest place', () => {
    expect(fitOf(capsule, [fine('diameter', 3), fine('length', 3)]).verdict).toBe('fits')
    expect(fitOf(capsule, [fine('diameter', 3), fine('length', 2.6)]).verdict).toBe('too-close-to-call')
    expect(fitOf(capsule, [fine('diameter', 3), fine('length', 3), fine('length', 1)]).verdict).toBe('does-not-fit')
  })
})

it('refuses a measurement out of domain, naming it', () => {
  expect(() => distanceSdMm(recess({ voxelMm: 0 }))).toThrow('voxelMm')
  expect(() => distanceSdMm(recess({ distanceMm: Number.NaN }))).toThrow('distanceMm')
  expect(() => fitOf(body, [], -1)).toThrow('marginMm is -1')
})
