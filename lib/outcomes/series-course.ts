import type { SeriesCase, SeriesOccasion, SeriesVisit } from './series-case.ts'
import { seriesOccasions } from './series-case.ts'
import { type SeriesMean, seriesMean } from './series-mean.ts'
import { levelAt, meanOfFour } from './series-result.ts'

/** An occasion of the course; yearly visits by their year. */
export interface CoursePlace {
  readonly occasion: Exclude<SeriesOccasion, 'unscheduled'>
  readonly year: number | null
}

export interface CourseMean extends CoursePlace {
  /** ears with this visit */
  readonly ears: number
  /** mean of 0.5, 1, 2 and 4 kHz: air conduction before, aided after, dB HL */
  readonly threshold: SeriesMean
  /** bone conduction of the visit or before, less aided threshold, dB; nothing before */
  readonly gain: SeriesMean
}

/** What one ear gives to an occasion; absent where a tone was not measured. */
export interface CoursePoint extends CoursePlace {
  readonly threshold: number | undefined
  readonly gain: number | undefined
}

/** The first visit of each occasion of an ear; unscheduled ones are of no place in time. */
export function coursePoints({ visits }: SeriesCase): readonly CoursePoint[] {
  const before = visits.find(({ occasion }) => occasion === 'before')
  const points: CoursePoint[] = []
  for (const visit of visits) {
    const { occasion, year = null } = visit
    if (occasion === 'unscheduled' || points.some((at) => at.occasion === occasion && at.year === year)) continue
    points.push({
      occasion,
      year,
      threshold: fourTone(occasion === 'before' ? visit.air : visit.aided),
      gain: occasion === 'before' ? undefined : gainAt(visit, before),
    })
  }
  return points
}

/**
 * Means over the visits of a series. The ears of one occasion are not those of the next: who comes back is not who was
 * operated on, and each mean says of how many it is.
 * @param ears `coursePoints` of each
 */
export function seriesCourse(ears: readonly (readonly CoursePoint[])[]): readonly CourseMean[] {
  const places = new Map<string, CoursePlace & { thresholds: number[]; gains: number[]; ears: number }>()
  for (const points of ears)
    for (const { occasion, year, threshold, gain } of points) {
      const key = `${occasion} ${year}`
      const place = places.get(key) ?? { occasion, year, thresholds: [], gains: [], ears: 0 }
      places.set(key, place)
      place.ears++
      if (threshold !== undefined) place.thresholds.push(threshold)
      if (gain !== undefined) place.gains.push(gain)
    }
  return [...places.values()]
    .toSorted((a, b) => orderOf(a.occasion) - orderOf(b.occasion) || (a.year ?? 0) - (b.year ?? 0))
    .map(({ occasion, year, ears: n, thresholds, gains }) => ({
      occasion,
      year,
      ears: n,
      threshold: seriesMean(thresholds, { missing: n - thresholds.length }),
      gain: seriesMean(gains, { missing: n - gains.length }),
    }))
}

const orderOf = (occasion: SeriesOccasion): number => seriesOccasions.indexOf(occasion)

const fourTone = (audiogram: SeriesVisit['air']): number | undefined =>
  meanOfFour((frequency) => levelAt(audiogram, frequency))

function gainAt({ bone, aided }: SeriesVisit, before: SeriesVisit | undefined): number | undefined {
  const from = bone.size > 0 ? bone : before?.bone
  if (from === undefined) return undefined
  return meanOfFour((frequency) => {
    const [by, level] = [levelAt(from, frequency), levelAt(aided, frequency)]
    return by === undefined || level === undefined ? undefined : by - level
  })
}
