import { describe, expect, it } from 'vitest'
import { DeviceClass, sitesOf } from '../../../lib/devices/classes.ts'
import { DeviceProfile } from '../../../lib/devices/device-profile.ts'
import { activeMiddleEarImplant } from '../../../lib/forecast/profiles/active-middle-ear-implant.ts'
import { percutaneous } from '../../../lib/forecast/profiles/bone-conduction.ts'
import { deviceProfiles, optionsOf } from '../../../lib/forecast/profiles.ts'

const issuesOf = (profile: unknown) =>
  DeviceProfile.safeParse(profile).error?.issues.map((issue) => issue.message) ?? []

it('has a profile with evidence for every class and every site that a plan can name', () => {
  const expected = DeviceClass.options.flatMap((deviceClass) =>
    sitesOf[deviceClass].map((couplingSite) => ({ deviceClass, couplingSite })),
  )
  expect(optionsOf(deviceProfiles)).toEqual(expected)
})

describe('a profile is refused', () => {
  it('without a maximum output', () => {
    const [coupling] = percutaneous.couplings
    expect(issuesOf({ ...percutaneous, couplings: [{ ...coupling, outputs: [] }] })).not.toEqual([])
  })
  it('with a source that it does not list', () => {
    expect(issuesOf({ ...percutaneous, sources: percutaneous.sources.slice(1) })).toEqual([
      'no source with the id effective-gain-working-means',
    ])
  })
  it('with a site that its class does not couple to', () => {
    expect(
      issuesOf({
        ...percutaneous,
        couplings: activeMiddleEarImplant.couplings.slice(0, 1),
        sources: activeMiddleEarImplant.sources,
      }),
    ).toEqual(['this device class does not couple to incus-long-process'])
  })
  it('with a confirmed source that does not say where it was read', () => {
    const source = { id: 'book', citation: 'A book', status: 'confirmed' }
    expect(issuesOf({ ...percutaneous, sources: [...percutaneous.sources, source] })).toEqual([
      'a confirmed source says where it was read, and only a confirmed one',
    ])
  })
  it('with a maximum output upside down', () => {
    const [coupling] = percutaneous.couplings
    const outputs = [{ id: 'implant', lowDbHl: 80, highDbHl: 60, source: 'maximum-output-working-ranges' }]
    expect(issuesOf({ ...percutaneous, couplings: [{ ...coupling, outputs }] })).toEqual(['not below lowDbHl'])
  })
})
