import * as z from 'zod/mini'
import type { Audiogram, Threshold } from '../audiometry/thresholds.ts'
import { CalendarDay } from '../board/identity.ts'
import { OssicleState } from '../board/records/plan.ts'
import { CouplingSite, DeviceClass } from '../devices/classes.ts'
import { Pathology } from '../devices/pathology.ts'
import { SealedQuantity } from '../devices/sealed-numbers.ts'
import { type SeriesCase, type SeriesForecast, type SeriesVisit, seriesOccasions } from '../outcomes/series-case.ts'
import { Ear, type FrequencyHz, isFrequencyHz } from '../units/frequencies.ts'
import { DbHl } from '../units/levels.ts'

/** What a case gave, as columns that a series reads without opening documents. Thresholds are text that anybody can read. */

/** One occasion of the operated ear; `visit` is empty before the operation. */
export const VisitOutcome = z.strictObject({
  visit: z.string(),
  occasion: z.enum(seriesOccasions),
  /** of a yearly visit */
  year: z.nullable(z.int()),
  heldOn: z.nullable(CalendarDay),
  /** such as `500=35 1000=40 8000>110`: dB HL in order of frequency, `>` for no response at that level; empty: not tested */
  air: z.string(),
  bone: z.string(),
  soundField: z.string(),
  aided: z.string(),
  /** monosyllables in quiet, percent; aided at a visit, unaided before */
  wordsPercent: z.nullable(z.number().check(z.minimum(0), z.maximum(100))),
})
export type VisitOutcome = z.infer<typeof VisitOutcome>

export const CaseOutcome = z.strictObject({
  patient: z.string(),
  ear: z.nullable(Ear),
  deviceClass: z.nullable(DeviceClass),
  couplingSite: z.nullable(CouplingSite),
  pathology: z.nullable(Pathology),
  malleus: z.nullable(OssicleState),
  incus: z.nullable(OssicleState),
  stapes: z.nullable(OssicleState),
  operatedOn: z.nullable(CalendarDay),
  /** separated by commas */
  tags: z.string(),
  /** mean of four tones of the forecast that stood at the operation, as JSON of a sealed quantity; null: none of this option */
  forecast: z.nullable(z.string()),
  visits: z.readonly(z.array(VisitOutcome)),
})
export type CaseOutcome = z.infer<typeof CaseOutcome>

export function thresholdsText(audiogram: Audiogram | undefined): string {
  return [...(audiogram ?? [])].flatMap(([frequency, threshold]) => pointText(frequency, threshold)).join(' ')
}

function pointText(frequency: FrequencyHz, threshold: Threshold): string[] {
  switch (threshold.kind) {
    case 'heard':
      return [`${frequency}=${threshold.level}`]
    case 'no-response':
      return [`${frequency}>${threshold.limit}`]
    case 'could-not-test':
      return []
    default:
      return threshold satisfies never
  }
}

const isHearingLevel = (level: number): level is DbHl => DbHl.safeParse(level).success

/** @throws RangeError when the text is not one that `thresholdsText` writes, or a level lies outside -20 to 130 dB HL */
export function thresholdsFrom(text: string): Audiogram {
  const audiogram = new Map<FrequencyHz, Threshold>()
  if (text === '') return audiogram
  for (const point of text.split(' ')) {
    const sign = point.search(/[=>]/)
    const frequency = Number(point.slice(0, sign))
    const level = Number(point.slice(sign + 1))
    if (sign < 1 || !isFrequencyHz(frequency) || !isHearingLevel(level))
      throw new RangeError(`a column of thresholds holds "${point}"; it has to be like 500=35 or 8000>110`)
    audiogram.set(
      frequency,
      point[sign] === '='
        ? { kind: 'heard', level, masked: false }
        : { kind: 'no-response', limit: level, masked: false },
    )
  }
  return audiogram
}

/**
 * The ear that a case gives to a series.
 * @param outcome as the store has it, which may be what another version or a hand wrote
 * @returns undefined where there is no ear yet
 * @throws z.core.$ZodError, RangeError or SyntaxError when a column holds what no case gives
 */
export function seriesCaseFrom(id: string, outcome: unknown): SeriesCase | undefined {
  const { ear, tags, forecast, visits, patient, ...columns } = CaseOutcome.parse(outcome)
  if (ear === null) return undefined
  return {
    ...columns,
    id,
    patient: patient.trim().toLowerCase(),
    ear,
    tags: tags === '' ? [] : tags.split(','),
    forecast: forecast === null ? undefined : forecastFrom(forecast),
    visits: visits.map(visitFrom),
  }
}

const forecastFrom = (text: string): SeriesForecast => SealedQuantity.parse(JSON.parse(text))

function visitFrom({ visit, occasion, year, heldOn, wordsPercent, ...routes }: VisitOutcome): SeriesVisit {
  return {
    visit,
    occasion,
    year: year ?? undefined,
    on: heldOn ?? undefined,
    air: thresholdsFrom(routes.air),
    bone: thresholdsFrom(routes.bone),
    soundField: thresholdsFrom(routes.soundField),
    aided: thresholdsFrom(routes.aided),
    wordsPercent: wordsPercent ?? undefined,
  }
}
