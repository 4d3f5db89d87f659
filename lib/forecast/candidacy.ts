import type { DeviceProfile } from '../devices/device-profile.ts'
import type { EvidenceSource } from '../devices/evidence-source.ts'
import type { FrequencyHz } from '../units/frequencies.ts'
import { sourceOf } from './device-profile.ts'
import type { EarTests } from './inputs.ts'
import { levelOf, type Tested, testedAt } from './prediction.ts'

/** A limit of the labelling held against the ear. `cannot-tell`: not tested, or no response below the limit. */
export interface CandidacyAt {
  readonly frequency: FrequencyHz
  readonly worstBoneDbHl: number
  readonly verdict: 'inside' | 'outside' | 'cannot-tell'
  /** bone-conduction threshold less the limit, dB; at least this where there was no response; absent: not tested */
  readonly beyondDb?: number
}

export interface Candidacy {
  readonly remark: string
  readonly source: EvidenceSource
  /** none where the profile has no limits by frequency */
  readonly limits: readonly CandidacyAt[]
}

/** What the labelling says of candidacy, and by how much bone conduction lies inside or outside of its limits. */
export function candidacyOf(profile: DeviceProfile, tests: EarTests): Candidacy {
  const { remark, source, limits = [] } = profile.candidacy
  return {
    remark,
    source: sourceOf(profile, source),
    limits: limits.map((limit) => candidacyAt(limit, testedAt(tests.bone, limit.frequency))),
  }
}

type Limit = Pick<CandidacyAt, 'frequency' | 'worstBoneDbHl'>

function candidacyAt(limit: Limit, bone: Tested | undefined): CandidacyAt {
  if (bone === undefined) return { ...limit, verdict: 'cannot-tell' }
  const beyondDb = levelOf(bone) - limit.worstBoneDbHl
  if (beyondDb > 0) return { ...limit, verdict: 'outside', beyondDb }
  return { ...limit, verdict: bone.kind === 'heard' ? 'inside' : 'cannot-tell', beyondDb }
}
