import { nearestFrequency, nearestStep, standardRange } from '@/app/audiogram/geometry.ts'
import type { ChartPointing } from '@/app/audiogram/pointing.ts'
import type { ChartPlace } from '@/lib/board/records/annotation.ts'
import { audiometricFrequenciesHz, type Ear } from '@/lib/units/frequencies.ts'
import { DbHl } from '@/lib/units/levels.ts'

type Spot = Pick<ChartPointing, 'hz' | 'dbHl'>

export const pinAt = (ear: Ear, { hz, dbHl }: Spot): ChartPlace => ({
  kind: 'pin',
  ear,
  frequency: nearestFrequency(hz, audiometricFrequenciesHz),
  level: DbHl.parse(nearestStep(dbHl, standardRange)),
})

/** The place between a press and a release: a pin at one frequency, a band from one frequency to another. */
export function placeBetween(ear: Ear, press: Spot, release: Spot): ChartPlace {
  const frequencies = [press, release].map(({ hz }) => nearestFrequency(hz, audiometricFrequenciesHz))
  const [from, to] = frequencies.sort((a, b) => a - b)
  if (from === undefined || to === undefined || from === to) return pinAt(ear, release)
  return { kind: 'band', ear, from, to }
}
