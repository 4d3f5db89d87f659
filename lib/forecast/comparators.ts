import { repeatability, repeatabilityOfMean } from '../audiometry/test-retest.ts'
import type { FrequencyHz } from '../units/frequencies.ts'
import { airAidLimits, airAidThresholdAt, airAidUseSdDb, halfGainRule } from './air-conduction-aid.ts'
import { evidenceFrom } from './evidence.ts'
import { forecastFrequenciesHz } from './forecast.ts'
import { indexForecast } from './index-forecast.ts'
import type { EarTests } from './inputs.ts'
import { fourFrequenciesHz, meanOfFour } from './mean-of-four.ts'
import {
  absent,
  type Basis,
  clampedEstimate,
  levelOf,
  type Prediction,
  type Spread,
  sharesOf,
  testedAt,
} from './prediction.ts'
import { type SpeechConditionId, speechConditions } from './speech-conditions.ts'
import { aidedEar, unaidedEar, unaidedIndices } from './speech-outlook.ts'

/** What an option is held against: nothing done, or a conventional aid in the canal. */
export type ComparatorId = 'untreated-ear' | 'air-conduction-aid'

/** What keeps a conventional aid out of an ear. Common practice, no source. */
export type AirAidObstacle = 'atresia' | 'draining-ear' | 'mould-not-tolerated'

export interface ComparatorForecast {
  readonly byFrequency: readonly { readonly frequency: FrequencyHz; readonly threshold: Prediction }[]
  /** over 0.5, 1, 2 and 4 kHz */
  readonly meanThreshold: Prediction
  readonly speech: readonly { readonly condition: SpeechConditionId; readonly index: Prediction }[]
}

export type Comparator =
  | { readonly id: ComparatorId; readonly ok: true; readonly forecast: ComparatorForecast }
  | { readonly id: ComparatorId; readonly ok: false; readonly reason: AirAidObstacle | 'no-air-thresholds' }

const airAtFour = fourFrequenciesHz.map((frequency) => ({ route: 'air', frequency }) as const)
const noLimits = { low: Number.NEGATIVE_INFINITY, high: Number.POSITIVE_INFINITY }

/**
 * The ear as it was tested, without a device: air conduction with the error of the test, its mean and the speech index.
 * @returns a reason instead when no frequency was tested by air
 */
export function untreatedEar(tests: EarTests): Comparator {
  const id = 'untreated-ear'
  if (!hasAir(tests)) return { id, ok: false, reason: 'no-air-thresholds' }
  const byFrequency = forecastFrequenciesHz.map((frequency) => ({
    frequency,
    threshold: testedThreshold(tests, frequency),
  }))
  const indices = unaidedIndices(tests)
  const speech = speechConditions.map(({ id: condition }, index) => ({
    condition,
    index: indices[index] ?? absent('a-frequency-is-missing'),
  }))
  const spread = { 'unaided-test': repeatabilityOfMean(airAtFour).standardUncertainty }
  return { id, ok: true, forecast: { byFrequency, meanThreshold: meanOf(byFrequency, spread), speech } }
}

/**
 * A conventional aid by the half-gain rule, limited by its output.
 * @param obstacle what keeps it out of this ear; it then is a reason and no number
 * Source: `halfGainRule`, limits assumed. Checked by: tests/published/half-gain-rule.test.ts
 */
export function airConductionAid(tests: EarTests, obstacle: AirAidObstacle | undefined): Comparator {
  const id = 'air-conduction-aid'
  if (obstacle !== undefined) return { id, ok: false, reason: obstacle }
  if (!hasAir(tests)) return { id, ok: false, reason: 'no-air-thresholds' }
  const byFrequency = forecastFrequenciesHz.map((frequency) => ({
    frequency,
    threshold: airAidThresholdAt(tests, frequency),
  }))
  const thresholds = byFrequency.map(({ frequency, threshold }) => ({ frequency, aidedThreshold: threshold }))
  const spread = { 'between-patients': airAidUseSdDb }
  const ear = aidedEar({
    byFrequency: thresholds,
    bone: tests.bone,
    spread,
    sources: [halfGainRule, airAidLimits],
  })
  const speech = speechConditions.map((condition) => ({
    condition: condition.id,
    index: indexForecast('aided-index', ear, condition),
  }))
  return { id, ok: true, forecast: { byFrequency, meanThreshold: meanOf(byFrequency, spread), speech } }
}

const hasAir = (tests: EarTests): boolean => unaidedEar({ ...tests, soundField: undefined }).thresholds.length > 0

function testedThreshold(tests: EarTests, frequency: FrequencyHz): Prediction {
  const air = testedAt(tests.air, frequency)
  if (air === undefined) return absent('no-unaided-threshold')
  const repeats = repeatability('air', frequency)
  const sd = repeats.standardUncertainty
  const isBound = air.kind === 'no-response'
  const basis: Basis = {
    formula: 'as-tested',
    inputs: [
      {
        name: 'unaided-air',
        unit: 'dB HL',
        value: levelOf(air),
        sd,
        frequency,
        ...(isBound ? { censored: true as const } : {}),
      },
    ],
    sources: [evidenceFrom('air-repeatability', repeats)],
    shares: sharesOf({ 'unaided-test': sd }),
    remarks: isBound ? ['unaided-no-response'] : [],
  }
  if (isBound) return { kind: 'at-least', value: levelOf(air), basis }
  return clampedEstimate(levelOf(air), sd, noLimits, basis)
}

function meanOf(byFrequency: ComparatorForecast['byFrequency'], spread: Spread): Prediction {
  const four = fourFrequenciesHz.map((wanted) => byFrequency.find(({ frequency }) => frequency === wanted)?.threshold)
  const parts = four.map((threshold) => threshold ?? absent('a-frequency-is-missing'))
  const known = parts.flatMap((part) => (part.kind === 'absent' ? [] : [part]))
  const basis: Basis = {
    formula: 'mean-of-four',
    inputs: known.flatMap((part) => part.basis.inputs),
    sources: [...new Map(known.flatMap((part) => part.basis.sources).map((source) => [source.id, source])).values()],
    shares: sharesOf(spread),
    remarks: [...new Set(known.flatMap((part) => part.basis.remarks))],
  }
  return meanOfFour(parts, { spread }, noLimits, basis)
}
