import { standingPoint } from '@/lib/board/audiograms.ts'
import {
  type HearingTest,
  type Point,
  type PointRoute,
  placeOfPoint,
  routesOf,
  type TestState,
} from '@/lib/board/records/hearing-test.ts'
import { audiometricFrequenciesHz, type Ear, type FrequencyHz } from '@/lib/units/frequencies.ts'

/** One sign of the audiogram. */
export interface ChartMark {
  readonly route: PointRoute
  readonly masked: boolean
  readonly frequency: FrequencyHz
  readonly point: Point
}

/** How a layer counts: like a test's state, or `faint` for what only stands there for comparison. */
export type LayerStyle = TestState | 'faint'

/** One test of one ear on the chart. */
export interface ChartLayer {
  readonly id: string
  readonly ear: Ear
  readonly style: LayerStyle
  readonly marks: readonly ChartMark[]
  /** Runs of standing thresholds, route by route, that a line may join. */
  readonly lines: readonly ChartLine[]
}

export interface ChartLine {
  readonly route: PointRoute
  readonly places: readonly LinePlace[]
}

export interface LinePlace {
  readonly frequency: FrequencyHz
  readonly level: number
  readonly masked: boolean
}

export type LayerSource = Pick<HearingTest, 'id' | 'ear' | 'condition' | 'points' | 'state'>

/** @param style other than the state of the test, for comparison */
export function layerOf(test: LayerSource, style: LayerStyle = test.state): ChartLayer {
  const marks = Object.entries(test.points)
    .map(([key, point]) => ({ ...placeOfPoint(key), point }))
    .sort((a, b) => a.frequency - b.frequency)
  return {
    id: test.id,
    ear: test.ear,
    style,
    marks,
    lines: routesOf[test.condition].flatMap((route) => linesOf(test, route)),
  }
}

/**
 * Thresholds of one route in the order of frequency, cut wherever there was no response or no test was possible: a
 * line never runs to or from such a point. The masked point of a frequency stands for the unmasked one.
 * Source: ASHA, Guidelines for audiometric symbols, 1990.
 */
function linesOf({ points }: LayerSource, route: PointRoute): ChartLine[] {
  const runs: LinePlace[][] = [[]]
  for (const frequency of audiometricFrequenciesHz) {
    const standing = standingPoint(points, route, frequency)
    if (standing === undefined) continue
    const { point, masked } = standing
    if (point.kind === 'heard') runs.at(-1)?.push({ frequency, level: point.level, masked })
    else runs.push([])
  }
  return runs.filter((places) => places.length > 1).map((places) => ({ route, places }))
}

/** The level at which a mark is drawn; none for "could not test". */
export function levelOf(point: Point): number | undefined {
  if (point.kind === 'heard') return point.level
  return point.kind === 'no-response' ? point.limit : undefined
}
