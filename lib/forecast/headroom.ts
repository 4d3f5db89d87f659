import type { DeviceProfile, MaximumOutput } from '../devices/device-profile.ts'
import type { FrequencyHz } from '../units/frequencies.ts'
import { sourceOf } from './device-profile.ts'
import type { Range } from './distribution.ts'
import type { DriveLoss, LossModel } from './loss-model.ts'
import type { Basis, BasisInput, Tested } from './prediction.ts'
import { levelOf } from './prediction.ts'
import { headroomWantedDb, workingValues } from './working-values.ts'

/** `depends`: enough at the upper end of the working range of maximum output, not enough at the lower. */
export type FittingVerdict = 'inside' | 'depends' | 'outside'

/** Maximum output minus bone-conduction threshold, dB, over the working range of the class. */
export interface Headroom extends Range {
  readonly output: MaximumOutput['id']
  readonly verdict: FittingVerdict
  /** headroom less the least that is wanted, dB: negative by as much as the frequency is outside the fitting range */
  readonly margin: Range
  /** the bone-conduction threshold is a lower bound, so the headroom is at most this */
  readonly atMost: boolean
  readonly basis: Basis
}

export interface HeadroomInputs {
  readonly profile: DeviceProfile
  readonly output: MaximumOutput
  readonly bone: Tested
  readonly frequency: FrequencyHz
  readonly loss: DriveLoss
  readonly model: LossModel
}

/**
 * Headroom(f) = maximum output(f) - loss(f) - bone-conduction threshold(f), dB, for both ends of the working range.
 * Less than 30 dB is outside the fitting range.
 * Status: approximate, from memory. Checked by: tests/published/forecast-recipe.test.ts
 */
export function headroomAt(inputs: HeadroomInputs): Headroom {
  const { output, bone, loss } = inputs
  const taken = levelOf(bone) + loss.lossDb
  const most = outputAt(output, inputs.frequency)
  const range = { low: most.low - taken, high: most.high - taken }
  const atMost = bone.kind === 'no-response'
  const margin = { low: range.low - headroomWantedDb.least, high: range.high - headroomWantedDb.least }
  return { ...range, output: output.id, atMost, verdict: verdictOn(range, atMost), margin, basis: basisOf(inputs) }
}

/** What the labelling says at the frequency, or the working range over all. */
function outputAt({ lowDbHl, highDbHl, byFrequency }: MaximumOutput, frequency: FrequencyHz): Range {
  const here = byFrequency?.find((at) => at.frequency === frequency)
  return { low: here?.lowDbHl ?? lowDbHl, high: here?.highDbHl ?? highDbHl }
}

function verdictOn({ low, high }: Range, atMost: boolean): FittingVerdict {
  if (high < headroomWantedDb.least) return 'outside'
  return low >= headroomWantedDb.least && !atMost ? 'inside' : 'depends'
}

function basisOf({ profile, output, bone, frequency, loss, model }: HeadroomInputs): Basis {
  const inputs: BasisInput[] = [
    { name: 'maximum-output', unit: 'dB HL', value: outputAt(output, frequency) },
    boneInput(bone, frequency),
    { name: 'loss', unit: 'dB', value: loss.lossDb, sd: loss.sdDb, frequency },
  ]
  return {
    formula: 'headroom',
    inputs,
    sources: [sourceOf(profile, output.source), model.source, workingValues],
    shares: [],
    remarks: bone.kind === 'no-response' ? ['bone-no-response'] : [],
  }
}

export const boneInput = (bone: Tested, frequency: FrequencyHz): BasisInput => ({
  name: 'bone-threshold',
  unit: 'dB HL',
  value: levelOf(bone),
  frequency,
  ...(bone.kind === 'no-response' ? { censored: true as const } : {}),
})
