import type { Audiogram, Threshold } from '../../../lib/audiometry/thresholds.ts'
import { FrequencyHz } from '../../../lib/units/frequencies.ts'
import { asDbHl } from '../../../lib/units/levels.ts'

export const heard = (level: number): Threshold => ({ kind: 'heard', level: asDbHl(level), masked: false })
export const noResponse = (limit: number): Threshold => ({ kind: 'no-response', limit: asDbHl(limit), masked: false })

/** `audiogram({ 500: 20, 4000: noResponse(110) })`: a number is a heard level in dB HL. */
export function audiogram(points: Readonly<Record<number, number | Threshold>>): Audiogram {
  return new Map(
    Object.entries(points).map(([frequency, point]) => [
      FrequencyHz.parse(Number(frequency)),
      typeof point === 'number' ? heard(point) : point,
    ]),
  )
}
