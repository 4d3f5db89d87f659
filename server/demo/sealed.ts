import { assumedOf, type RecordNow, requestOf } from '../../lib/board/sealer.ts'
import type { DeviceOption } from '../../lib/devices/classes.ts'
import { DeviceProfile } from '../../lib/devices/device-profile.ts'
import type { Scenario } from '../../lib/devices/scenario.ts'
import { sealer } from '../guard/sealer.ts'

const actuator = 'floating-mass'

function profileOf({ deviceClass }: DeviceOption): DeviceProfile {
  const profile = sealer.profiles.find((candidate) => candidate.deviceClass === deviceClass)
  if (profile === undefined) throw new RangeError(`no profile of the class ${deviceClass}`)
  return profile
}

/** What a team would have sealed of this record, computed as for everybody. */
export function sealedFrom(now: RecordNow, option: DeviceOption) {
  const sealed = sealer.forecast(requestOf(now, option, profileOf(option), assumedOf(now, { actuator })))
  if (!sealed.ok) throw new RangeError(`the demo cannot seal a forecast: ${sealed.refusal.code}`)
  return { content: sealed.content }
}

/** A scenario of this record with its answer. */
export function frozenFrom(now: RecordNow, option: DeviceOption, scenario: Scenario) {
  const assumed = assumedOf(now, { scenario, actuator })
  if (assumed === undefined) throw new RangeError('a scenario assumes something')
  const frozen = sealer.scenario({ ...requestOf(now, option, profileOf(option), assumed), assumed })
  if (!frozen.ok) throw new RangeError(`the demo cannot freeze a scenario: ${frozen.refusal.code}`)
  return { content: frozen.content, answer: frozen.answer }
}

/** A profile as a team would enter it: that of the class, with limits from invented labelling. */
export function inventedProfile(option: DeviceOption, id: string): DeviceProfile {
  const profile = profileOf(option)
  return DeviceProfile.parse({
    ...profile,
    id,
    candidacy: {
      remark: 'Bone conduction no worse than the limits below. Invented for the demonstration.',
      limits: [
        { frequency: 500, worstBoneDbHl: 45 },
        { frequency: 1000, worstBoneDbHl: 50 },
        { frequency: 2000, worstBoneDbHl: 65 },
        { frequency: 4000, worstBoneDbHl: 65 },
      ],
      source: 'labelling',
    },
    sources: [
      ...profile.sources,
      {
        id: 'labelling',
        citation: 'Labelling of the device (invented for the demonstration)',
        status: 'from labelling',
      },
    ],
  })
}
