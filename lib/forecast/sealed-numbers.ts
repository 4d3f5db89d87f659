import type { Audiogram, Threshold } from '../audiometry/thresholds.ts'
import { rounded, type SealedQuantity, type SealedThreshold } from '../devices/sealed-numbers.ts'
import type { FrequencyHz } from '../units/frequencies.ts'
import type { Distribution, Range } from './distribution.ts'
import type { Prediction } from './prediction.ts'
import type { Scorable } from './scoring.ts'

const sealedRange = ({ low, high }: Range): Range => ({ low: rounded(low), high: rounded(high) })

export function sealedQuantity(prediction: Prediction): SealedQuantity {
  switch (prediction.kind) {
    case 'estimate': {
      const { value, interval50, interval, distribution } = prediction
      return {
        kind: 'estimate',
        value: rounded(value),
        interval50: sealedRange(interval50),
        interval: sealedRange(interval),
        ...(distribution === undefined ? {} : { distribution: sealedDistribution(distribution) }),
      }
    }
    case 'at-least':
    case 'at-most':
      return { kind: prediction.kind, value: rounded(prediction.value) }
    case 'absent':
      return { kind: 'absent', reason: prediction.reason }
    default:
      return prediction satisfies never
  }
}

const sealedDistribution = ({ centre, scale, degreesOfFreedom, limits }: Distribution) => ({
  mean: rounded(centre),
  sd: rounded(scale),
  ...(degreesOfFreedom === undefined ? {} : { degreesOfFreedom: rounded(degreesOfFreedom) }),
  ...(Number.isFinite(limits.low) ? { low: rounded(limits.low) } : {}),
  ...(Number.isFinite(limits.high) ? { high: rounded(limits.high) } : {}),
})

/** The sealed prediction as the follow-up scores it. */
export function scorableFrom(sealed: SealedQuantity): Scorable {
  if (sealed.kind !== 'estimate') return sealed
  const { distribution, ...estimate } = sealed
  if (distribution === undefined) return estimate
  const { mean, sd, degreesOfFreedom, low, high } = distribution
  const limits = { low: low ?? Number.NEGATIVE_INFINITY, high: high ?? Number.POSITIVE_INFINITY }
  const student = degreesOfFreedom === undefined ? {} : { degreesOfFreedom }
  return { ...estimate, distribution: { centre: mean, scale: sd, limits, ...student } }
}

/** From low to high frequency, whatever order they were entered in. */
export const sealedAudiogram = (audiogram: Audiogram): SealedThreshold[] =>
  [...audiogram].toSorted(([a], [b]) => a - b).map(([frequency, threshold]) => sealedThreshold(frequency, threshold))

function sealedThreshold(frequency: FrequencyHz, threshold: Threshold): SealedThreshold {
  switch (threshold.kind) {
    case 'heard':
      return { frequency, kind: 'heard', level: rounded(threshold.level), masked: threshold.masked }
    case 'no-response':
      return { frequency, kind: 'no-response', level: rounded(threshold.limit), masked: threshold.masked }
    case 'could-not-test':
      return { frequency, kind: 'could-not-test' }
    default:
      return threshold satisfies never
  }
}
