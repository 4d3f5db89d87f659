import type { Audiogram, Threshold } from '../audiometry/thresholds.ts'
import type { FrequencyHz } from '../units/frequencies.ts'
import { asDbHl } from '../units/levels.ts'
import type { Prediction } from './prediction.ts'

/** A threshold to be expected. */
export interface Expected {
  readonly frequency: FrequencyHz
  /** dB HL; before the floor was applied, so that a worse ear than expected leaves the floor at the right place */
  readonly valueDbHl: number
  readonly floorDbHl: number
  /** the true threshold is at least this */
  readonly isBound: boolean
}

/** @returns nothing where there is no number */
export function expectedFrom(frequency: FrequencyHz, threshold: Prediction, floorDbHl: number): readonly Expected[] {
  switch (threshold.kind) {
    case 'estimate':
      return [{ frequency, valueDbHl: threshold.distribution?.centre ?? threshold.value, floorDbHl, isBound: false }]
    case 'at-least':
      return [{ frequency, valueDbHl: threshold.value, floorDbHl, isBound: true }]
    case 'at-most':
    case 'absent':
      return []
    default:
      return threshold satisfies never
  }
}

/** Levels that `DbHl` can hold, dB HL. */
const range = { low: -20, high: 130 }

/** All thresholds worse by `movedDb`, none better than its floor and none outside the hearing levels. */
export const thresholdsMovedBy = (thresholds: readonly Expected[], movedDb: number): Audiogram =>
  new Map(thresholds.map((expected) => [expected.frequency, thresholdOf(expected, movedDb)]))

function thresholdOf({ valueDbHl, floorDbHl, isBound }: Expected, movedDb: number): Threshold {
  const level = asDbHl(Math.min(range.high, Math.max(range.low, floorDbHl, valueDbHl + movedDb)))
  return isBound ? { kind: 'no-response', limit: level, masked: false } : { kind: 'heard', level, masked: false }
}
