import type { Coupling, DeviceProfile } from '../devices/device-profile.ts'
import type { EvidenceSource } from '../devices/evidence-source.ts'
import type { FrequencyHz } from '../units/frequencies.ts'
import { couplingAt } from './device-profile.ts'
import { type Experience, earsWith, isOfSameKind, type Outcome } from './experience.ts'
import { fourFrequenciesHz } from './mean-of-four.ts'
import {
  type Belief,
  earCorrelationChoice,
  learnFrom,
  pooledWithOtherEar,
  predictiveOf,
  priorFrom,
  priorStrengthChoice,
} from './pooling.ts'
import type { BasisInput, Remark } from './prediction.ts'
import type { Option } from './profiles.ts'
import type { BeyondGroup } from './without-gap.ts'
import { meanSpreadDb } from './working-values.ts'

/** What is believed of the effective gain of this ear, and what it stands on beyond publications. */
export interface GainBelief extends Belief {
  /** the published mean, dB */
  readonly publishedDb: number
  readonly inputs: readonly BasisInput[]
  readonly sources: readonly EvidenceSource[]
  readonly remarks: readonly Remark[]
}

/** At which place of an outcome a gain is read: one frequency, or the mean of four. */
interface Place {
  /** published mean and SD between patients; undefined where nothing is published */
  readonly publishedOf: (coupling: Coupling) => { readonly meanDb: number; readonly sdDb: number } | undefined
  /** measured, less what its ear was expected to differ by from the group */
  readonly gainIn: (outcome: Outcome) => number | undefined
  readonly beyondIn: (beyond: BeyondGroup) => ReturnType<BeyondGroup['at']>
  readonly frequency?: FrequencyHz
}

export interface BeliefInputs {
  readonly profile: DeviceProfile
  readonly option: Option
  readonly experience: Experience | undefined
  readonly beyondGroup: BeyondGroup
}

/** The gain at one frequency; undefined where nothing is published, because then there is no prior either. */
export const gainBeliefAt = (inputs: BeliefInputs, frequency: FrequencyHz): GainBelief | undefined =>
  beliefAt(inputs, {
    publishedOf: ({ gain }) => gain.entries.find((entry) => entry.frequency === frequency),
    gainIn: (outcome) => likeGroupAt(outcome, frequency),
    beyondIn: (beyond) => beyond.at(frequency),
    frequency,
  })

/** The mean gain over 0.5, 1, 2 and 4 kHz; an outcome counts when all four are there. */
export const meanGainBelief = (inputs: BeliefInputs): GainBelief | undefined =>
  beliefAt(inputs, {
    publishedOf: ({ gain }) => {
      const meanDb = meanOver((wanted) => gain.entries.find(({ frequency }) => frequency === wanted)?.meanDb)
      return meanDb === undefined ? undefined : { meanDb, sdDb: meanSpreadDb.used }
    },
    gainIn: (outcome) => meanOver((frequency) => likeGroupAt(outcome, frequency)),
    beyondIn: (beyond) => ({
      shiftDb: meanOver((frequency) => beyond.at(frequency).shiftDb) ?? 0,
      spreadDb: meanOver((frequency) => beyond.at(frequency).spreadDb) ?? 0,
    }),
  })

function likeGroupAt({ gainDb, beyondGroupDb }: Outcome, frequency: FrequencyHz): number | undefined {
  const measured = gainDb.get(frequency)
  return measured === undefined ? undefined : measured - (beyondGroupDb?.get(frequency) ?? 0)
}

function meanOver(at: (frequency: FrequencyHz) => number | undefined): number | undefined {
  const four = fourFrequenciesHz.flatMap((frequency) => at(frequency) ?? [])
  return four.length < fourFrequenciesHz.length ? undefined : four.reduce((sum, value) => sum + value, 0) / four.length
}

/** Published evidence, then the team's series with the same option, then the patient's other ear. */
function beliefAt(inputs: BeliefInputs, place: Place): GainBelief | undefined {
  const { profile, option, experience } = inputs
  const published = publishedAt(profile, option, place)
  if (published === undefined) return undefined
  const alone = { inputs: [], sources: [], remarks: [], publishedDb: published.meanDb }
  const asGroup = { meanDb: published.meanDb, scaleDb: published.sdDb, ...alone }
  if (experience === undefined) return ofThisKind(asGroup, inputs, place)
  const learned = learnedFrom(published, option, place, experience)
  return ofThisKind({ ...asGroup, ...pooledWith(learned, inputs, place, experience) }, inputs, place)
}

/** What is believed of ears like those of the group, moved to what this ear differs by. */
function ofThisKind(belief: GainBelief, { beyondGroup }: BeliefInputs, place: Place): GainBelief {
  if (beyondGroup.share === 0) return belief
  const { shiftDb, spreadDb } = place.beyondIn(beyondGroup)
  const { frequency } = place
  return {
    ...belief,
    meanDb: belief.meanDb + shiftDb,
    publishedDb: belief.publishedDb + shiftDb,
    scaleDb: Math.hypot(belief.scaleDb, spreadDb),
    inputs: [
      ...belief.inputs,
      { name: 'gain-beyond-group', unit: 'dB', value: shiftDb, ...(frequency === undefined ? {} : { frequency }) },
    ],
    sources: [...belief.sources, ...beyondGroup.sources],
    remarks: [...belief.remarks, beyondGroup.share === 1 ? 'without-gap' : 'small-gap'],
  }
}

type Learned = Pick<GainBelief, 'meanDb' | 'scaleDb' | 'degreesOfFreedom' | 'inputs' | 'sources' | 'remarks'>
type Published = NonNullable<ReturnType<Place['publishedOf']>>

function publishedAt(profile: DeviceProfile, option: Option, place: Place): Published | undefined {
  const coupling = couplingAt(profile, option.couplingSite)
  return coupling && place.publishedOf(coupling)
}

function learnedFrom(published: Published, option: Option, place: Place, experience: Experience): Learned {
  const gains = earsWith(option, experience).flatMap((outcome) => place.gainIn(outcome) ?? [])
  if (gains.length === 0)
    return { meanDb: published.meanDb, scaleDb: published.sdDb, inputs: [], sources: [], remarks: [] }
  const belief = predictiveOf(learnFrom(priorFrom(published), gains))
  const mean = gains.reduce((sum, gain) => sum + gain, 0) / gains.length
  return {
    ...belief,
    inputs: [inputAt(place, 'series-gain', mean, gains.length)],
    sources: [priorStrengthChoice],
    remarks: ['learned-from-series'],
  }
}

function pooledWith(
  learned: Learned,
  { profile, option }: BeliefInputs,
  place: Place,
  experience: Experience,
): Learned {
  const { otherEar } = experience
  if (otherEar === undefined || !isOfSameKind(otherEar, option)) return learned
  const observedDb = place.gainIn(otherEar)
  const publishedThere = publishedAt(profile, otherEar, place)
  if (observedDb === undefined || publishedThere === undefined) return learned
  const expected = learnedFrom(publishedThere, otherEar, place, experience)
  return {
    ...learned,
    ...pooledWithOtherEar(learned, { observedDb, expected }),
    inputs: [...learned.inputs, inputAt(place, 'other-ear-gain', observedDb, 1)],
    sources: [...learned.sources, earCorrelationChoice],
    remarks: [...learned.remarks, 'pooled-with-other-ear'],
  }
}

const inputAt = (
  { frequency }: Place,
  name: 'series-gain' | 'other-ear-gain',
  value: number,
  n: number,
): BasisInput => ({
  name,
  unit: 'dB',
  value,
  n,
  ...(frequency === undefined ? {} : { frequency }),
})
