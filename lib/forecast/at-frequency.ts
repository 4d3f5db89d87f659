import { repeatability } from '../audiometry/test-retest.ts'
import type { FrequencyHz } from '../units/frequencies.ts'
import type { Range } from './distribution.ts'
import { gainBeliefAt } from './gain-belief.ts'
import { type Headroom, headroomAt } from './headroom.ts'
import type { EarTests } from './inputs.ts'
import { modelSdDb } from './model-discrepancy.ts'
import {
  type AbsenceReason,
  absent,
  type Basis,
  learnedEstimate,
  levelOf,
  type Prediction,
  type Spread,
  testedAt,
} from './prediction.ts'
import { basisOf, type Fitting, optionOf, type Situation, unclampedAided, withUnaided } from './situation.ts'
import { aidedFloorDbHl } from './working-values.ts'

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

/**
 * Forecast at one frequency: aided = bone - effective gain + loss, not better than 15 dB HL, with
 * SD = sqrt(SD_gain^2 + SD_bone^2 + SD_loss^2), where the part of the loss is that of its model and of the scenario.
 * @returns absent quantities with the reason where evidence or bone conduction is missing, or where the ear needs more
 * than the class can produce
 */
export function forecastAt(fitting: Fitting, tests: EarTests, frequency: FrequencyHz): FrequencyForecast {
  const gain = fitting.coupling.gain.entries.find((entry) => entry.frequency === frequency)
  const belief = gainBeliefAt({ ...fitting, option: optionOf(fitting) }, frequency)
  const bone = testedAt(tests.bone, frequency)
  if (gain === undefined || belief === undefined) return nothingAt(frequency, 'no-evidence-at-frequency')
  if (bone === undefined)
    return nothingAt(frequency, tests.bone.has(frequency) ? 'bone-could-not-be-tested' : 'bone-not-tested')
  const loss = fitting.model.lossAt(fitting.site, frequency)
  return quantitiesAt({ ...fitting, frequency, gain, belief, loss, bone }, tests)
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

function aidedThreshold(at: Situation): Prediction {
  const spread = gainAndBoneSpread(at)
  const basis = basisOf(at, 'aided-threshold', spread)
  const limits = { low: aidedFloorDbHl, high: Number.POSITIVE_INFINITY }
  if (at.bone.kind === 'no-response')
    return { kind: 'at-least', value: Math.max(aidedFloorDbHl, unclampedAided(at)), basis }
  return estimateAt(at, unclampedAided(at), limits, { spread, basis })
}

/** The published gain less the loss; bone conduction enters only through the floor of the aided threshold. */
function effectiveGain(at: Situation): Prediction {
  const spread = gainSpread(at)
  const value = at.belief.meanDb - at.loss.lossDb
  const limits = { low: Number.NEGATIVE_INFINITY, high: levelOf(at.bone) - aidedFloorDbHl }
  return estimateAt(at, value, limits, { spread, basis: basisOf(at, 'effective-gain', spread) })
}

function residualGap(at: Situation): Prediction {
  const spread = gainSpread(at)
  const value = at.loss.lossDb - at.belief.meanDb
  const limits = { low: aidedFloorDbHl - levelOf(at.bone), high: Number.POSITIVE_INFINITY }
  return estimateAt(at, value, limits, { spread, basis: basisOf(at, 'residual-gap', spread) })
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
  return estimateAt(at, value, { low: Number.NEGATIVE_INFINITY, high: most }, { spread, basis })
}

/** Normal, or Student t by the degrees of freedom of a learned gain. */
function estimateAt(
  { belief }: Situation,
  centre: number,
  limits: Range,
  { spread, basis }: { readonly spread: Spread; readonly basis: Basis },
): Prediction {
  return learnedEstimate({ centre, spread, limits, basis, degreesOfFreedom: belief.degreesOfFreedom })
}

const gainSpread = ({ belief, loss }: Situation): Spread => ({
  'between-patients': belief.scaleDb,
  model: modelSdDb(loss),
  scenario: loss.sdDb,
})

const gainAndBoneSpread = (at: Situation): Spread => ({
  ...gainSpread(at),
  'bone-test': repeatability('bone', at.frequency).standardUncertainty,
})
