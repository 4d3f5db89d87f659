// Working means of effective gain by class and site, SD between patients and working ranges of maximum output:
// from memory, unconfirmed. The checks hold the profiles to the table as it was written down, not to a publication.
import { it } from 'vitest'
import { couplingAt } from '../../lib/forecast/device-profile.ts'
import { deviceProfiles, type Option } from '../../lib/forecast/profiles.ts'
import { checkValue } from './record-check.ts'

const source = 'Working means of effective gain and ranges of maximum output, from memory, unconfirmed'
const why = 'written in whole dB'

const table: readonly (Option & { gain: readonly number[]; output: readonly number[] })[] = [
  {
    deviceClass: 'active-middle-ear-implant',
    couplingSite: 'incus-long-process',
    gain: [0, 3, 5, 4, 2],
    output: [85, 100],
  },
  { deviceClass: 'active-middle-ear-implant', couplingSite: 'incus-body', gain: [-2, 2, 5, 4, 2], output: [85, 100] },
  { deviceClass: 'active-middle-ear-implant', couplingSite: 'stapes-head', gain: [-6, 0, 5, 5, 3], output: [75, 90] },
  { deviceClass: 'active-middle-ear-implant', couplingSite: 'oval-window', gain: [-6, 0, 5, 5, 3], output: [75, 90] },
  {
    deviceClass: 'active-middle-ear-implant',
    couplingSite: 'round-window',
    gain: [-10, -3, 4, 4, 2],
    output: [75, 90],
  },
  {
    deviceClass: 'active-transcutaneous-bone-conduction',
    couplingSite: 'skull',
    gain: [-10, -3, 0, 0, -5],
    output: [60, 70],
  },
  {
    deviceClass: 'passive-transcutaneous-bone-conduction',
    couplingSite: 'skull',
    gain: [-8, -3, -3, -8, -12],
    output: [50, 60],
  },
  {
    deviceClass: 'percutaneous-bone-anchored',
    couplingSite: 'skull',
    gain: [-5, 0, 2, 0, -3],
    output: [63, 70, 70, 85],
  },
]

it.each(table)('$deviceClass at $couplingSite', ({ deviceClass, couplingSite, gain, output }) => {
  const profile = deviceProfiles.find((candidate) => candidate.deviceClass === deviceClass)
  const coupling = profile && couplingAt(profile, couplingSite)
  const entries = coupling?.gain.entries ?? []
  const what = `${deviceClass} at ${couplingSite}`
  const check = (name: string, expected: readonly number[], actual: readonly number[]) =>
    checkValue({ source, what: `${what}: ${name}`, expected, actual, tolerance: 0, why })
  check(
    'frequencies, Hz',
    [500, 1000, 2000, 3000, 4000],
    entries.map((entry) => entry.frequency),
  )
  check(
    'mean effective gain, dB',
    gain,
    entries.map((entry) => entry.meanDb),
  )
  check(
    'SD between patients, dB',
    [9, 8, 8, 9, 10],
    entries.map((entry) => entry.sdDb),
  )
  check(
    'maximum output, dB HL',
    output,
    (coupling?.outputs ?? []).flatMap((range) => [range.lowDbHl, range.highDbHl]),
  )
})
