import type { PointRoute } from '@/lib/board/records/hearing-test.ts'
import type { Ear, FrequencyHz } from '@/lib/units/frequencies.ts'
import type { ChartLayer } from './layers.ts'

/** What could not be tested, a lane for each ear and route, under the plot. */
export interface CouldNotTestLane {
  readonly ear: Ear
  readonly route: PointRoute
  readonly frequencies: readonly FrequencyHz[]
}

export function couldNotTestLanes(layers: readonly ChartLayer[]): CouldNotTestLane[] {
  const lanes = new Map<string, { ear: Ear; route: PointRoute; frequencies: Set<FrequencyHz> }>()
  for (const { ear, marks } of layers)
    for (const { route, frequency, point } of marks) {
      if (point.kind !== 'could-not-test') continue
      const lane = lanes.get(`${ear}.${route}`) ?? { ear, route, frequencies: new Set() }
      lanes.set(`${ear}.${route}`, lane)
      lane.frequencies.add(frequency)
    }
  return [...lanes.values()].map((lane) => ({ ...lane, frequencies: [...lane.frequencies] }))
}

export interface Extent {
  readonly from: number
  readonly to: number
}

/** Puts extents that overlap into different lanes, the earlier one higher. Returns the lane of each, in their order. */
export function packLanes(extents: readonly Extent[]): number[] {
  const taken: Extent[][] = []
  return extents.map((extent) => {
    const free = taken.findIndex((lane) => lane.every((other) => extent.to < other.from || extent.from > other.to))
    const lane = free === -1 ? taken.length : free
    taken[lane] = [...(taken[lane] ?? []), extent]
    return lane
  })
}
