import { repeatability } from '../audiometry/test-retest.ts'
import type { EvidenceSource } from '../devices/evidence-source.ts'
import type { FrequencyHz } from '../units/frequencies.ts'
import { boneInput } from './headroom.ts'
import type { EarTests } from './inputs.ts'
import {
  absent,
  type Basis,
  type BasisInput,
  clampedEstimate,
  combinedSd,
  levelOf,
  type Prediction,
  type Remark,
  type Spread,
  sharesOf,
  type Tested,
  testedAt,
} from './prediction.ts'
import { aidedFloorDbHl, speechZeroDbSpl, workingValues } from './working-values.ts'

/** Highest level that a conventional aid can give at the eardrum, as equivalent dB HL. */
export const airAidMaximumOutputDbHl = 110

/**
 * Most gain that leaves the peaks of ordinary speech inside the maximum output, dB: 110 - (65 - 20 + 15), with 0 dB HL
 * of speech at 20 dB SPL and peaks 15 dB above its level.
 */
export const airAidMostGainDb = airAidMaximumOutputDbHl - (65 - speechZeroDbSpl + 15)

/** SD of the gain that users take against the gain of the rule, dB. */
export const airAidUseSdDb = 6

export const halfGainRule: EvidenceSource = {
  id: 'half-gain-rule',
  citation:
    'Half-gain rule: users choose about half of their threshold as gain (Lybarger 1963, quoted by Berger, Am J Audiol 2:17-18, 1993), and a quarter of the air-bone gap on top (expressed as 25 % ABG + AC by Johnson, J Am Acad Audiol 24:452-460, 2013)',
  status: 'confirmed',
  readAt: 'http://aja.pubs.asha.org/article.aspx?articleid=1773493; abstract of doi 10.3766/jaaa.24.6.2',
  reservation: 'linear gain; a fitted aid with compression gives soft sounds more and loud sounds less',
}

export const airAidLimits: EvidenceSource = {
  id: 'air-conduction-aid-limits',
  citation:
    'Limits taken for a conventional aid: maximum output 110 dB HL, hence at most 50 dB of gain for speech at 65 dB SPL with peaks of 15 dB; SD 6 dB of the gain in use against the rule',
  status: 'assumption',
}

/**
 * Gain of a conventional air-conduction aid by the half-gain rule, dB: AC / 2 + (AC - BC) / 4, not below 0, limited by
 * output. Without a gap or with bone conduction worse than air the second part is 0.
 * @param airDbHl air-conduction threshold, dB HL
 * @param boneDbHl bone-conduction threshold, dB HL; absent where it was not tested
 * Source: `halfGainRule`. Checked by: tests/published/half-gain-rule.test.ts
 */
export function halfGain(airDbHl: number, boneDbHl: number | undefined): number {
  const gapDb = boneDbHl === undefined ? 0 : Math.max(0, airDbHl - boneDbHl)
  return Math.min(airAidMostGainDb, Math.max(0, airDbHl / 2 + gapDb / 4))
}

/**
 * Threshold to be expected with a conventional aid: air conduction less the gain of the rule, not better than 15 dB HL
 * unless the ear hears better without it.
 * @returns a lower bound where air or bone conduction gave no response
 */
export function airAidThresholdAt(tests: EarTests, frequency: FrequencyHz): Prediction {
  const air = testedAt(tests.air, frequency)
  if (air === undefined) return absent('no-unaided-threshold')
  if (levelOf(air) >= airAidMaximumOutputDbHl) return absent('beyond-maximum-output')
  const bone = testedAt(tests.bone, frequency)
  const boneDbHl = bone && levelOf(bone)
  const centre = levelOf(air) - halfGain(levelOf(air), boneDbHl)
  const low = Math.min(aidedFloorDbHl, levelOf(air))
  const spread = spreadAt(levelOf(air), boneDbHl, frequency)
  const basis = basisAt({ air, bone, frequency, spread })
  if (air.kind === 'no-response' || bone?.kind === 'no-response')
    return { kind: 'at-least', value: Math.max(low, centre), basis }
  return clampedEstimate(centre, combinedSd(spread), { low, high: Number.POSITIVE_INFINITY }, basis)
}

/** Each test moves the aided threshold by as much as the rule lets it through. */
function spreadAt(airDbHl: number, boneDbHl: number | undefined, frequency: FrequencyHz): Spread {
  const aided = (air: number, bone: number | undefined) => air - halfGain(air, bone)
  const byAir = aided(airDbHl + 0.5, boneDbHl) - aided(airDbHl - 0.5, boneDbHl)
  const byBone = boneDbHl === undefined ? 0 : aided(airDbHl, boneDbHl + 0.5) - aided(airDbHl, boneDbHl - 0.5)
  return {
    'between-patients': airAidUseSdDb,
    'unaided-test': Math.abs(byAir) * repeatability('air', frequency).standardUncertainty,
    'bone-test': Math.abs(byBone) * repeatability('bone', frequency).standardUncertainty,
  }
}

interface Facts {
  readonly air: Tested
  readonly bone: Tested | undefined
  readonly frequency: FrequencyHz
  readonly spread: Spread
}

function basisAt({ air, bone, frequency, spread }: Facts): Basis {
  const unaided: BasisInput = {
    name: 'unaided-air',
    unit: 'dB HL',
    value: levelOf(air),
    frequency,
    ...(air.kind === 'no-response' ? { censored: true as const } : {}),
  }
  const remarks: Remark[] = [
    ...(air.kind === 'no-response' ? (['unaided-no-response'] as const) : []),
    ...(bone === undefined ? (['gap-not-known'] as const) : []),
    ...(bone?.kind === 'no-response' ? (['bone-no-response'] as const) : []),
  ]
  return {
    formula: 'half-gain',
    inputs: [
      unaided,
      ...(bone === undefined ? [] : [boneInput(bone, frequency)]),
      { name: 'maximum-output', unit: 'dB HL', value: airAidMaximumOutputDbHl },
    ],
    sources: [halfGainRule, airAidLimits, workingValues],
    shares: sharesOf(spread),
    remarks,
  }
}
