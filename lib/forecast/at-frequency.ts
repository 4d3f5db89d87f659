import { repeatability } from '../audiometry/test-retest.ts'
import type { CouplingSite } from '../devices/classes.ts'
import type { FrequencyHz } from '../units/frequencies.ts'
import { type Coupling, type DeviceProfile, type GainEntry, sourceOf } from './device-profile.ts'
import { evidenceFrom } from './evidence.ts'
import { boneInput, type Headroom, headroomAt } from './headroom.ts'
import type { EarTests } from './inputs.ts'
import type { DriveLoss, LossModel } from './loss-model.ts'
import {
  type AbsenceReason,
  absent,
  type Basis,
  type BasisInput,
  clampedEstimate,
  combinedSd,
  type FormulaId,
  levelOf,
  type Prediction,
  type Remark,
  type Spread,
  sharesOf,
  type Tested,
  testedAt,
} from './prediction.ts'
import { aidedFloorDbHl, workingValues } from './working-values.ts'

/** What is expected at one frequency. Thresholds in dB HL, gains and gaps in dB. */
export interface FrequencyForecast {
  readonly frequency: FrequencyHz
  readonly aidedThreshold: Prediction
  /** bone-conduction threshold minus aided threshold */
  readonly effectiveGain: Prediction
  /** aided threshold minus bone-conduction threshold: the gap that stays with the device */
  readonly residualGap: Prediction
  /** unaided minus aided threshold */
  readonly functionalGain: Prediction
  /** one for each output variant of the class; none where bone conduction was not tested */
  readonly headroom: readonly Headroom[]
}

/** The option that is forecast: profile and coupling, with the model of what changes the drive. */
export interface Fitting {
  readonly profile: DeviceProfile
  readonly coupling: Coupling
  readonly site: CouplingSite
  readonly model: LossModel
}

/** All that the quantities at one frequency are computed from. */
interface Situation extends Fitting {
  readonly frequency: FrequencyHz
  readonly gain: GainEntry
  readonly loss: DriveLoss
  readonly bone: Tested
}

/**
 * Forecast at one frequency: aided = bone - effective gain + loss, not better than 15 dB HL, with
 * SD = sqrt(SD_gain^2 + SD_bone^2 + SD_loss^2).
 * @returns absent quantities with the reason where evidence or bone conduction is missing, or where the ear needs more
 * than the class can produce
 */
export function forecastAt(fitting: Fitting, tests: EarTests, frequency: FrequencyHz): FrequencyForecast {
  const gain = fitting.coupling.gain.entries.find((entry) => entry.frequency === frequency)
  const bone = testedAt(tests.bone, frequency)
  if (gain === undefined) return nothingAt(frequency, 'no-evidence-at-frequency')
  if (bone === undefined)
    return nothingAt(frequency, tests.bone.has(frequency) ? 'bone-could-not-be-tested' : 'bone-not-tested')
  const loss = fitting.model.lossAt(fitting.site, frequency)
  return quantitiesAt({ ...fitting, frequency, gain, loss, bone }, tests)
}

function quantitiesAt(at: Situation, tests: EarTests): FrequencyForecast {
  const { frequency, profile, bone, loss, model, coupling } = at
  const headroom = coupling.outputs.map((output) => headroomAt({ profile, output, bone, frequency, loss, model }))
  if (headroom.every(({ high }) => high <= 0)) return { ...nothingAt(frequency, 'beyond-maximum-output'), headroom }
  return {
    frequency,
    aidedThreshold: aidedThreshold(at),
    effectiveGain: effectiveGain(at),
    residualGap: residualGap(at),
    functionalGain: functionalGain(at, tests),
    headroom,
  }
}

function nothingAt(frequency: FrequencyHz, reason: AbsenceReason): FrequencyForecast {
  const none = absent(reason)
  return {
    frequency,
    aidedThreshold: none,
    effectiveGain: none,
    residualGap: none,
    functionalGain: none,
    headroom: [],
  }
}

const unclampedAided = ({ bone, gain, loss }: Situation): number => levelOf(bone) - gain.meanDb + loss.lossDb

function aidedThreshold(at: Situation): Prediction {
  const spread = gainAndBoneSpread(at)
  const basis = basisOf(at, 'aided-threshold', spread)
  const limits = { low: aidedFloorDbHl, high: Number.POSITIVE_INFINITY }
  if (at.bone.kind === 'no-response')
    return { kind: 'at-least', value: Math.max(aidedFloorDbHl, unclampedAided(at)), basis }
  return clampedEstimate(unclampedAided(at), combinedSd(spread), limits, basis)
}

/** The published gain less the loss; bone conduction enters only through the floor of the aided threshold. */
function effectiveGain(at: Situation): Prediction {
  const spread = gainSpread(at)
  const value = at.gain.meanDb - at.loss.lossDb
  const limits = { low: Number.NEGATIVE_INFINITY, high: levelOf(at.bone) - aidedFloorDbHl }
  return clampedEstimate(value, combinedSd(spread), limits, basisOf(at, 'effective-gain', spread))
}

function residualGap(at: Situation): Prediction {
  const spread = gainSpread(at)
  const value = at.loss.lossDb - at.gain.meanDb
  const limits = { low: aidedFloorDbHl - levelOf(at.bone), high: Number.POSITIVE_INFINITY }
  return clampedEstimate(value, combinedSd(spread), limits, basisOf(at, 'residual-gap', spread))
}

function functionalGain(at: Situation, tests: EarTests): Prediction {
  const soundField = testedAt(tests.soundField, at.frequency)
  const unaided = soundField ?? testedAt(tests.air, at.frequency)
  if (unaided === undefined) return absent('no-unaided-threshold')
  if (unaided.kind === 'no-response' && at.bone.kind === 'no-response') return absent('undetermined')
  const route = soundField === undefined ? 'air' : 'sound-field'
  const spread = { ...gainAndBoneSpread(at), 'unaided-test': repeatability(route, at.frequency).standardUncertainty }
  const basis = withUnaided(basisOf(at, 'functional-gain', spread), unaided, route, at.frequency)
  const most = levelOf(unaided) - aidedFloorDbHl
  const value = levelOf(unaided) - unclampedAided(at)
  if (unaided.kind === 'no-response') return { kind: 'at-least', value: Math.min(most, value), basis }
  if (at.bone.kind === 'no-response') return { kind: 'at-most', value: Math.min(most, value), basis }
  return clampedEstimate(value, combinedSd(spread), { low: Number.NEGATIVE_INFINITY, high: most }, basis)
}

const gainSpread = ({ gain, loss }: Situation): Spread => ({ 'between-patients': gain.sdDb, scenario: loss.sdDb })

const gainAndBoneSpread = (at: Situation): Spread => ({
  ...gainSpread(at),
  'bone-test': repeatability('bone', at.frequency).standardUncertainty,
})

function basisOf(at: Situation, formula: FormulaId, spread: Spread): Basis {
  const { frequency, bone, gain, loss, profile, coupling, model } = at
  const boneSd = spread['bone-test']
  const sdOfBone = boneSd === undefined ? {} : { sd: boneSd }
  const n = coupling.gain.n === undefined ? {} : { n: coupling.gain.n }
  const inputs: BasisInput[] = [
    { ...boneInput(bone, frequency), ...sdOfBone },
    { name: 'published-gain', unit: 'dB', value: gain.meanDb, sd: gain.sdDb, frequency, ...n },
    { name: 'loss', unit: 'dB', value: loss.lossDb, sd: loss.sdDb, frequency },
  ]
  const measured = boneSd === undefined ? [] : [evidenceFrom('bone-repeatability', repeatability('bone', frequency))]
  return {
    formula,
    inputs,
    sources: [sourceOf(profile, coupling.gain.source), model.source, workingValues, ...measured],
    shares: sharesOf(spread),
    remarks: remarksOf(at),
  }
}

function remarksOf(at: Situation): readonly Remark[] {
  const remarks: Remark[] = []
  if (unclampedAided(at) < aidedFloorDbHl) remarks.push('no-better-than-floor')
  if (at.bone.kind === 'no-response') remarks.push('bone-no-response')
  if (!at.bone.masked) remarks.push('unmasked-bone')
  return remarks
}

function withUnaided(basis: Basis, unaided: Tested, route: 'air' | 'sound-field', frequency: FrequencyHz): Basis {
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
