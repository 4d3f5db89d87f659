import { repeatabilityOfMean } from '../audiometry/test-retest.ts'
import type { Audiogram } from '../audiometry/thresholds.ts'
import type { EvidenceSource } from '../devices/evidence-source.ts'
import type { FrequencyForecast } from './at-frequency.ts'
import { evidenceFrom } from './evidence.ts'
import { coversFour, type ExpectedEar, indexForecast } from './index-forecast.ts'
import type { EarTests } from './inputs.ts'
import { fourFrequenciesHz } from './mean-of-four.ts'
import { type Expected, expectedFrom } from './moved-thresholds.ts'
import { levelOf, type Prediction, type Spread, testedAt } from './prediction.ts'
import { type SpeechConditionId, speechConditions } from './speech-conditions.ts'
import { aidedFloorDbHl } from './working-values.ts'

/** Speech intelligibility index, 0 to 1, of one ear without and with the device. */
export interface SpeechForecast {
  readonly condition: SpeechConditionId
  readonly unaided: Prediction
  readonly aided: Prediction
}

/** The index in every condition, for the ear as it is and as it is expected to be. */
export function speechForecast(tests: EarTests, aided: ExpectedEar): readonly SpeechForecast[] {
  const unaided = unaidedIndices(tests)
  return speechConditions.map((condition, index) => ({
    condition: condition.id,
    unaided: unaided[index] ?? indexForecast('unaided-index', unaidedEar(tests), condition),
    aided: indexForecast('aided-index', aided, condition),
  }))
}

/** Tests never change, and every option of a case asks for the same ear without a device. */
const known = new WeakMap<EarTests, readonly Prediction[]>()

export function unaidedIndices(tests: EarTests): readonly Prediction[] {
  const before = known.get(tests)
  if (before !== undefined) return before
  const ear = unaidedEar(tests)
  const indices = speechConditions.map((condition) => indexForecast('unaided-index', ear, condition))
  known.set(tests, indices)
  return indices
}

/** Sound-field thresholds where all four frequencies were tested so, otherwise air conduction. */
export function unaidedEar({ air, bone, soundField }: EarTests): ExpectedEar {
  const inField = soundField === undefined ? [] : measured(soundField)
  const route = coversFour(inField) ? 'sound-field' : 'air'
  const repeats = repeatabilityOfMean(fourFrequenciesHz.map((frequency) => ({ route, frequency })))
  return {
    thresholds: route === 'sound-field' ? inField : measured(air),
    bone,
    spread: { 'unaided-test': repeats.standardUncertainty },
    sources: [evidenceFrom(`${route}-repeatability-of-mean`, repeats)],
  }
}

const noFloorDbHl = Number.NEGATIVE_INFINITY

const measured = (audiogram: Audiogram): readonly Expected[] =>
  [...audiogram.keys()]
    .toSorted((a, b) => a - b)
    .flatMap((frequency) => {
      const threshold = testedAt(audiogram, frequency)
      if (threshold === undefined) return []
      const isBound = threshold.kind === 'no-response'
      return [{ frequency, valueDbHl: levelOf(threshold), floorDbHl: noFloorDbHl, isBound }]
    })

export interface AidedEarFacts {
  readonly byFrequency: readonly Pick<FrequencyForecast, 'frequency' | 'aidedThreshold'>[]
  readonly bone: Audiogram
  /** of the mean over four frequencies */
  readonly spread: Spread
  readonly degreesOfFreedom?: number | undefined
  readonly sources: readonly EvidenceSource[]
}

/** The ear with the device; what has no number at a frequency is left out there. */
export function aidedEar({ byFrequency, ...ear }: AidedEarFacts): ExpectedEar {
  const thresholds = byFrequency.flatMap(({ frequency, aidedThreshold }) =>
    expectedFrom(frequency, aidedThreshold, aidedFloorDbHl),
  )
  return { ...ear, thresholds }
}
