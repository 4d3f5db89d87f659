import type { FrequencyHz } from '../units/frequencies.ts'
import {
  type Difference,
  type DifferenceSetId,
  differencesByFrequency,
  type MeanDifference,
  meanDifference,
} from './differences.ts'
import type { BeforeAndAfter } from './pairs.ts'
import type { Provenance } from './provenance.ts'
import type { Audiogram } from './thresholds.ts'

export type GainMeasureId =
  | 'functional-gain'
  | 'effective-gain'
  | 'aided-residual-gap'
  | 'air-change'
  | 'bone-change'
  | 'legacy-overclosure'

/** A difference of two audiograms of one ear, with its sign convention: authors do not agree on signs. */
export interface GainMeasure extends Provenance {
  readonly id: GainMeasureId
  readonly minuend: string
  readonly subtrahend: string
  readonly sign: string
  /** Over which sets the mean is reported. */
  readonly sets: readonly DifferenceSetId[]
}

const reportingSets: readonly DifferenceSetId[] = ['pta4-who', 'pta4-aao', 'band-low', 'band-mid', 'band-high']
const aao1995 = 'AAO-HNS Committee on Hearing and Equilibrium, Otolaryngol Head Neck Surg 113:186-187, 1995'
const implantReporting =
  'Maier et al., Audiol Neurotol 23:105-115, 2018 (active middle-ear implants); Maier et al., Otol Neurotol 43:513-529, 2022 (bone-conduction devices too)'

export const gainMeasures: { readonly [Id in GainMeasureId]: GainMeasure & { readonly id: Id } } = {
  'functional-gain': {
    id: 'functional-gain',
    minuend: 'unaided sound-field threshold',
    subtrahend: 'aided sound-field threshold',
    sign: 'positive: better with the device',
    sets: reportingSets,
    source: implantReporting,
    status: 'confirmed',
    reservation: 'includes what the device makes up for in the air-bone gap; not amplification of the inner ear',
  },
  'effective-gain': {
    id: 'effective-gain',
    minuend: 'bone-conduction threshold',
    subtrahend: 'aided sound-field threshold',
    sign: '0: gap closed; positive: amplification beyond it; negative: gap that remains with the device',
    sets: reportingSets,
    source: implantReporting,
    status: 'from memory, unconfirmed',
    reservation: 'some authors use the opposite sign',
  },
  'aided-residual-gap': {
    id: 'aided-residual-gap',
    minuend: 'aided sound-field threshold',
    subtrahend: 'bone-conduction threshold',
    sign: 'positive: gap that remains with the device',
    sets: reportingSets,
    source: implantReporting,
    status: 'from memory, unconfirmed',
  },
  'air-change': {
    id: 'air-change',
    minuend: 'air conduction before',
    subtrahend: 'air conduction after',
    sign: 'positive: better',
    sets: reportingSets,
    source: aao1995,
    status: 'from memory, unconfirmed',
  },
  'bone-change': {
    id: 'bone-change',
    minuend: 'bone conduction before',
    subtrahend: 'bone conduction after',
    sign: 'positive: better (overclosure); negative: sensorineural loss',
    sets: ['hf-bone'],
    source: aao1995,
    status: 'from memory, unconfirmed',
  },
  'legacy-overclosure': {
    id: 'legacy-overclosure',
    minuend: 'air conduction after',
    subtrahend: 'bone conduction before',
    sign: 'negative: overclosed; never reported as the air-bone gap',
    sets: ['pta4-aao', 'hf-bone'],
    source: aao1995,
    status: 'from memory, unconfirmed',
    reservation: 'older series only: mixes two test dates',
  },
}

export interface GainResult {
  readonly measure: GainMeasure
  readonly byFrequency: ReadonlyMap<FrequencyHz, Difference>
  readonly means: readonly MeanDifference[]
}

/**
 * Unaided minus aided sound-field thresholds of one ear, in dB, per frequency and over the reporting sets.
 * @throws RangeError when an audiogram is out of domain
 * Sources: `gainMeasures`. Checked by: tests/published/implant-outcome-measures.test.ts
 */
export function functionalGain(thresholds: { readonly unaided: Audiogram; readonly aided: Audiogram }): GainResult {
  return gain('functional-gain', thresholds.unaided, thresholds.aided)
}

/**
 * Bone-conduction minus aided sound-field thresholds of the implanted ear, in dB: how far beyond closing the air-bone
 * gap the device carries.
 * @throws RangeError when an audiogram is out of domain
 * Sources: `gainMeasures`. Checked by: tests/published/implant-outcome-measures.test.ts
 */
export function effectiveGain(thresholds: { readonly bone: Audiogram; readonly aided: Audiogram }): GainResult {
  return gain('effective-gain', thresholds.bone, thresholds.aided)
}

/**
 * Aided sound-field minus bone-conduction thresholds, in dB: the effective gain with the opposite sign.
 * @throws RangeError when an audiogram is out of domain
 */
export function aidedResidualGap(thresholds: { readonly aided: Audiogram; readonly bone: Audiogram }): GainResult {
  return gain('aided-residual-gap', thresholds.aided, thresholds.bone)
}

/** Air conduction before minus after, in dB. @throws RangeError when an audiogram is out of domain */
export function airChange({ before, after }: BeforeAndAfter<Audiogram>): GainResult {
  return gain('air-change', before, after)
}

/**
 * Bone conduction before minus after, in dB; the mean of 1, 2 and 4 kHz is the reported bone change.
 * @throws RangeError when an audiogram is out of domain
 * Checked by: tests/published/aao-hns-1995.test.ts
 */
export function boneChange({ before, after }: BeforeAndAfter<Audiogram>): GainResult {
  return gain('bone-change', before, after)
}

/** Air conduction after minus bone conduction before, in dB. @throws RangeError when an audiogram is out of domain */
export function legacyOverclosure(thresholds: {
  readonly airAfter: Audiogram
  readonly boneBefore: Audiogram
}): GainResult {
  return gain('legacy-overclosure', thresholds.airAfter, thresholds.boneBefore)
}

function gain(id: GainMeasureId, minuend: Audiogram, subtrahend: Audiogram): GainResult {
  const measure = gainMeasures[id]
  const means = measure.sets.map((set) => meanDifference(minuend, subtrahend, set))
  return { measure, byFrequency: differencesByFrequency(minuend, subtrahend), means }
}
