import { describe, expect, it } from 'vitest'
import { readFit } from '../../../app/board/plan/fit/fit-entry.ts'
import { roomsOf } from '../../../app/board/plan/fit/rooms.ts'
import { newestFirst, standingScenarios } from '../../../app/board/plan/frozen/standing-scenarios.ts'
import { readProfileText } from '../../../app/board/plan/profiles/profile-reading.ts'
import { FitMeasurement } from '../../../lib/board/records/fit-measurement.ts'
import type { ScenarioRecord } from '../../../lib/board/records/sealed-record.ts'
import { deviceProfiles } from '../../../lib/forecast/profiles.ts'

const form = {
  place: 'round-window-niche',
  roomFor: 'diameter',
  distanceMm: '2,1',
  voxelMm: '0.15',
  sliceSpacingMm: '',
  direction: 'oblique',
  imaging: 'cone-beam-ct',
}

describe('a distance', () => {
  it('is read with a decimal comma, and what is empty is absent', () => {
    const reading = readFit(form)
    expect(reading).toMatchObject({ ok: true, content: { distanceMm: 2.1, voxelMm: 0.15, remark: '' } })
    expect(reading.ok && 'sliceSpacingMm' in reading.content).toBe(false)
  })
  it.each([
    ['distanceMm', ''],
    ['distanceMm', 'wide'],
    ['distanceMm', '-1'],
    ['voxelMm', '0'],
    ['voxelMm', '20'],
    ['sliceSpacingMm', '11'],
  ])('names %s as wrong when it is "%s"', (name, value) => {
    expect(readFit({ ...form, [name]: value })).toEqual({ ok: false, fields: [name] })
  })
  it('makes room in its own ear alone, and only where it says for what', () => {
    const stamp = { id: 'a', author: 'p-1', at: '2026-05-04T10:00:00.000Z', ear: 'right', remark: '' }
    const measured = (fields: object) => {
      const reading = readFit(form)
      if (!reading.ok) throw new Error('expected a distance')
      return FitMeasurement.parse({ ...stamp, ...reading.content, ...fields })
    }
    const rooms = roomsOf([measured({}), measured({ ear: 'left' }), measured({ roomFor: undefined })], 'right')
    expect(rooms).toEqual([
      { roomFor: 'diameter', distanceMm: 2.1, voxelMm: 0.15, direction: 'oblique', observerSdMm: 0.15 },
    ])
  })
})

describe('the text of a profile', () => {
  it('is nothing, no JSON, or faults with their places', () => {
    expect(readProfileText(' ', [])).toEqual({ kind: 'nothing' })
    expect(readProfileText('{', [])).toMatchObject({ kind: 'not-json' })
    const reading = readProfileText(JSON.stringify({ units: {}, profile: deviceProfiles[0] }), [])
    expect(reading.kind === 'faults' && reading.faults.map(({ path }) => path)).toContain('units.level')
  })
  it('is not taken while the limits of candidacy are missing', () => {
    const units = { level: 'dB HL', gain: 'dB', length: 'mm', mass: 'mg' }
    const reading = readProfileText(JSON.stringify({ units, profile: deviceProfiles[0] }), [])
    expect(reading.kind === 'faults' && reading.faults).toContainEqual(
      expect.objectContaining({ code: 'missing', path: 'profile.candidacy.limits' }),
    )
  })
})

describe('frozen scenarios', () => {
  const frozen = (id: string, at: string, supersedes?: string) => ({ id, at, supersedes }) as unknown as ScenarioRecord
  const records = [frozen('a', '2026-05-01'), frozen('b', '2026-05-03', 'a'), frozen('c', '2026-05-02')]
  it('stand until another supersedes them, the newest first', () => {
    expect(newestFirst(records).map(({ id }) => id)).toEqual(['b', 'c', 'a'])
    expect(standingScenarios(records).map(({ id }) => id)).toEqual(['b', 'c'])
  })
})
