import { repeatability } from '../audiometry/test-retest.ts'
import type { CouplingSite } from '../devices/classes.ts'
import type { Coupling, DeviceProfile, GainEntry } from '../devices/device-profile.ts'
import type { FrequencyHz } from '../units/frequencies.ts'
import { sourceOf } from './device-profile.ts'
import { evidenceFrom } from './evidence.ts'
import type { Experience } from './experience.ts'
import type { GainBelief } from './gain-belief.ts'
import { boneInput } from './headroom.ts'
import type { DriveLoss, LossModel } from './loss-model.ts'
import {
  type Basis,
  type BasisInput,
  type FormulaId,
  levelOf,
  type Remark,
  type Spread,
  sharesOf,
  type Tested,
} from './prediction.ts'
import type { Option } from './profiles.ts'
import type { BeyondGroup } from './without-gap.ts'
import { aidedFloorDbHl, workingValues } from './working-values.ts'

/** The option that is forecast: profile and coupling, with the model of what changes the drive. */
export interface Fitting {
  readonly profile: DeviceProfile
  readonly coupling: Coupling
  readonly site: CouplingSite
  readonly model: LossModel
  readonly experience: Experience | undefined
  readonly beyondGroup: BeyondGroup
}

export const optionOf = ({ profile, site }: Fitting): Option => ({
  deviceClass: profile.deviceClass,
  couplingSite: site,
})

/** All that the quantities at one frequency are computed from. */
export interface Situation extends Fitting {
  readonly frequency: FrequencyHz
  readonly gain: GainEntry
  readonly belief: GainBelief
  readonly loss: DriveLoss
  readonly bone: Tested
}

/** Expected aided threshold before its floor, dB HL. */
export const unclampedAided = ({ bone, belief, loss }: Situation): number => levelOf(bone) - belief.meanDb + loss.lossDb

/** What stands behind a quantity at one frequency. */
export function basisOf(at: Situation, formula: FormulaId, spread: Spread): Basis {
  const { frequency, bone, gain, belief, loss, profile, coupling, model } = at
  const boneSd = spread['bone-test']
  const sdOfBone = boneSd === undefined ? {} : { sd: boneSd }
  const n = coupling.gain.n === undefined ? {} : { n: coupling.gain.n }
  const inputs: BasisInput[] = [
    { ...boneInput(bone, frequency), ...sdOfBone },
    { name: 'published-gain', unit: 'dB', value: gain.meanDb, sd: gain.sdDb, frequency, ...n },
    ...belief.inputs,
    { name: 'loss', unit: 'dB', value: loss.lossDb, sd: loss.sdDb, frequency },
  ]
  const measured = boneSd === undefined ? [] : [evidenceFrom('bone-repeatability', repeatability('bone', frequency))]
  return {
    formula,
    inputs,
    sources: [sourceOf(profile, coupling.gain.source), ...belief.sources, model.source, workingValues, ...measured],
    shares: sharesOf(spread),
    remarks: remarksOf(at),
  }
}

function remarksOf(at: Situation): readonly Remark[] {
  const remarks: Remark[] = [...at.belief.remarks]
  if (unclampedAided(at) < aidedFloorDbHl) remarks.push('no-better-than-floor')
  if (at.bone.kind === 'no-response') remarks.push('bone-no-response')
  if (!at.bone.masked) remarks.push('unmasked-bone')
  return remarks
}

/** The same with the unaided threshold that the quantity is taken against. */
export function withUnaided(
  basis: Basis,
  unaided: Tested,
  route: 'air' | 'sound-field',
  frequency: FrequencyHz,
): Basis {
  const repeats = repeatability(route, frequency)
  const input: BasisInput = {
    name: route === 'air' ? 'unaided-air' : 'unaided-sound-field',
    unit: 'dB HL',
    value: levelOf(unaided),
    sd: repeats.standardUncertainty,
    frequency,
    ...(unaided.kind === 'no-response' ? { censored: true as const } : {}),
  }
  const remarks: Remark[] = [
    ...(route === 'air' ? (['air-for-sound-field'] as const) : []),
    ...(unaided.kind === 'no-response' ? (['unaided-no-response'] as const) : []),
  ]
  return {
    ...basis,
    inputs: [input, ...basis.inputs],
    sources: [...basis.sources, evidenceFrom(`${route}-repeatability`, repeats)],
    remarks: [...basis.remarks, ...remarks],
  }
}
