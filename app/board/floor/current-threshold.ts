import { type HearingTest, pointKey } from '@/lib/board/records/hearing-test.ts'
import type { Ear, FrequencyHz } from '@/lib/units/frequencies.ts'

/** dB HL of the current unaided air-conduction threshold, masked before unmasked; undefined when none was heard. */
export function currentThreshold(tests: readonly HearingTest[], ear: Ear, frequency: FrequencyHz): number | undefined {
  const test = tests.find((one) => one.ear === ear && one.condition === 'unaided' && one.state === 'current')
  const heard = [true, false].flatMap((masked) => {
    const point = test?.points[pointKey({ route: 'air', masked, frequency })]
    return point?.kind === 'heard' ? [point.level] : []
  })
  return heard[0]
}
