import type { Coupling, DeviceProfile } from '../devices/device-profile.ts'
import type { EvidenceSource } from '../devices/evidence-source.ts'
import type { FrequencyHz } from '../units/frequencies.ts'
import { halfGain } from './air-conduction-aid.ts'
import { couplingAt, sourceOf } from './device-profile.ts'
import type { EarTests } from './inputs.ts'
import { fourFrequenciesHz } from './mean-of-four.ts'
import { levelOf, testedAt } from './prediction.ts'

/**
 * Mean air-bone gap over 0.5, 1, 2 and 4 kHz, dB: up to `none` an ear counts as one without a gap, from `group` on as one
 * of the group evidence. 10 dB is the bin in which a gap is reported as closed (AAO-HNS 1995); 20 dB is a choice.
 */
export const meanGapDb = { none: 10, group: 20 } as const

/** How the gain to be expected of this ear differs from that of the group, which had an air-bone gap. */
export interface BeyondGroup {
  /** 1: an ear without a gap; 0: an ear like those of the group */
  readonly share: number
  readonly sources: readonly EvidenceSource[]
  /** to be added to the published effective gain, and the spread that not knowing the kind of ear adds, dB */
  at(frequency: FrequencyHz): { readonly shiftDb: number; readonly spreadDb: number }
}

const likeGroup: BeyondGroup = { share: 0, sources: [], at: () => ({ shiftDb: 0, spreadDb: 0 }) }

/**
 * Group evidence of effective gain was collected in ears whose air-bone gap the device closed. Without a gap a device that
 * drives the chain does about what a conventional aid does: in 14 comparative studies functional gain was alike, mostly
 * within 10 dB. There the effective gain is bone - (air - half gain), plus the difference of the site to the one that those
 * studies used. Between the two kinds of ear both are weighed by the mean gap, and what they differ by adds to the spread;
 * within a kind the spread of the group is kept, which is the wider one (8 to 10 dB against hypot(5, 6)).
 *
 * The two kinds are two populations and not one law: an ear with a small gap is forecast worse than the same ear without.
 * @param tests thresholds of the ear, dB HL; where bone or air is missing at one of the four frequencies the ear is taken
 * to be like the group
 * Source: `profile.withoutGap`. Checked by: tests/published/half-gain-rule.test.ts
 */
export function beyondGroup(profile: DeviceProfile, coupling: Coupling, tests: EarTests): BeyondGroup {
  const { withoutGap } = profile
  const reference = withoutGap && couplingAt(profile, withoutGap.reference)
  const share = shareWithoutGap(tests)
  if (withoutGap === undefined || reference === undefined || share === 0) return likeGroup
  return {
    share,
    sources: [sourceOf(profile, withoutGap.source)],
    at(frequency) {
      const gapDb = gainLikeAid(tests, frequency)
      const groupDb = meanIn(reference, frequency)
      if (gapDb === undefined || groupDb === undefined || meanIn(coupling, frequency) === undefined)
        return { shiftDb: 0, spreadDb: 0 }
      const differenceDb = gapDb - groupDb
      return { shiftDb: share * differenceDb, spreadDb: Math.sqrt(share * (1 - share)) * Math.abs(differenceDb) }
    },
  }
}

/** 1 up to `meanGapDb.none`, 0 from `meanGapDb.group` on, a straight line between; 0 where the mean cannot be taken. */
export function shareWithoutGap({ air, bone }: Pick<EarTests, 'air' | 'bone'>): number {
  const gaps = fourFrequenciesHz.flatMap((frequency) => {
    const [byAir, byBone] = [testedAt(air, frequency), testedAt(bone, frequency)]
    return byAir === undefined || byBone === undefined ? [] : [levelOf(byAir) - levelOf(byBone)]
  })
  if (gaps.length < fourFrequenciesHz.length) return 0
  const mean = gaps.reduce((sum, gap) => sum + gap, 0) / gaps.length
  return Math.min(1, Math.max(0, (meanGapDb.group - mean) / (meanGapDb.group - meanGapDb.none)))
}

/** Effective gain of a conventional aid, dB: bone - (air - half gain). Without air conduction there the ear has no gap. */
function gainLikeAid(tests: EarTests, frequency: FrequencyHz): number | undefined {
  const bone = testedAt(tests.bone, frequency)
  if (bone === undefined) return undefined
  const boneDbHl = levelOf(bone)
  const air = testedAt(tests.air, frequency)
  const airDbHl = air === undefined ? boneDbHl : levelOf(air)
  return boneDbHl - airDbHl + halfGain(airDbHl, boneDbHl)
}

const meanIn = (coupling: Coupling, wanted: FrequencyHz): number | undefined =>
  coupling.gain.entries.find(({ frequency }) => frequency === wanted)?.meanDb
