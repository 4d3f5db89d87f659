import * as z from 'zod/mini'
import { gapBins } from '../audiometry/gap-closure.ts'
import { CouplingSite } from '../devices/classes.ts'
import { meanRoutes } from '../outcomes/mean-audiogram.ts'
import { seriesOccasions } from '../outcomes/series-case.ts'
import { gainMeasures } from '../outcomes/site-comparison.ts'
import { FrequencyHz } from '../units/frequencies.ts'

/** GET /api/series: the outcomes of the cases that the caller may see, added up. No answer names a
 * case or a patient, but for cases that could not be read. */

const count = z.int().check(z.minimum(0))
const maybe = z.nullable(z.number())

const meanFields = { n: count, mean: maybe, low: maybe, high: maybe, sd: maybe, noResponse: count, missing: count }
export const SeriesMean = z.strictObject(meanFields)
export type SeriesMean = z.infer<typeof SeriesMean>

const MeanAt = z.strictObject({ frequency: FrequencyHz, ...meanFields })
const shareFields = { count, total: count, low: maybe, high: maybe }
const Cells = z.array(z.strictObject({ averageDb: z.number(), wordsPercent: z.number(), n: count }))
const Coverage = z.nullable(z.strictObject({ share: z.number(), low: z.number(), high: z.number() }))

export const SeriesAnswer = z.strictObject({
  /** cases of the caller's, and how many of them became ears of this series */
  ears: z.strictObject({
    cases: count,
    /** without an ear or a plan to add up */
    empty: count,
    filteredOut: count,
    /** another ear, or another case, of a patient who is in it already */
    secondOfPatient: count,
    n: count,
    /** of these, with a visit at the chosen time and an aided test in it */
    withResult: count,
  }),
  /** cases of the caller's whose columns hold what no case gives: in no number of this answer */
  unreadable: z.array(z.strictObject({ id: z.string(), label: z.string() })),
  /** tags of the caller's cases, most used first */
  tags: z.array(z.strictObject({ tag: z.string(), n: count })),
  sites: z.array(z.strictObject({ site: CouplingSite, n: count })),
  audiograms: z.array(z.strictObject({ route: z.enum(meanRoutes), byFrequency: z.array(MeanAt) })),
  bins: z.strictObject({
    bins: z.array(z.strictObject({ bin: z.enum(gapBins), ...shareFields })),
    undecided: count,
    missing: count,
    innerEarLoss: z.strictObject(shareFields),
    boneMissing: count,
  }),
  scattergram: z.strictObject({
    before: Cells,
    change: Cells,
    nBefore: count,
    nChange: count,
    missingBefore: count,
    missingChange: count,
  }),
  /** null where fewer than two sites have results */
  comparison: z.nullable(
    z.strictObject({
      measure: z.enum(gainMeasures),
      first: CouplingSite,
      second: CouplingSite,
      nFirst: count,
      nSecond: count,
      compared: count,
      byFrequency: z.array(
        z.strictObject({
          frequency: FrequencyHz,
          first: SeriesMean,
          second: SeriesMean,
          difference: z.nullable(
            z.strictObject({ value: z.number(), low: z.number(), high: z.number(), pAdjusted: z.number() }),
          ),
        }),
      ),
    }),
  ),
  course: z.array(
    z.strictObject({
      occasion: z.enum(seriesOccasions),
      year: z.nullable(z.int()),
      ears: count,
      threshold: SeriesMean,
      gain: SeriesMean,
    }),
  ),
  calibration: z.strictObject({
    n: count,
    notSealed: count,
    notScored: count,
    inside50: Coverage,
    inside80: Coverage,
    bias: SeriesMean,
    tenths: z.array(count),
    score: z.nullable(
      z.strictObject({
        n: count,
        forecast: z.number(),
        baseline: z.number(),
        gain: z.strictObject({ value: z.number(), low: z.number(), high: z.number() }),
      }),
    ),
  }),
  spread: z.array(MeanAt),
})
export type SeriesAnswer = z.infer<typeof SeriesAnswer>
