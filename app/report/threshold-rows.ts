import type { Messages } from '@/app/messages/for-report.ts'
import type { Audiogram, Threshold } from '@/lib/audiometry/thresholds.ts'
import type { CaseReport, EarReport } from '@/lib/report/case-report.ts'
import { type OccasionTests, routeOf } from '@/lib/report/occasion-tests.ts'
import { audiometricFrequenciesHz, type FrequencyHz } from '@/lib/units/frequencies.ts'
import type { Row, Table } from './sheet.ts'

/** Always there, so that a frequency that was not measured is seen to be missing. */
const always: readonly FrequencyHz[] = [250, 500, 1000, 2000, 3000, 4000, 6000, 8000]
const routes = ['air', 'bone', 'sound-field', 'aided'] as const

/** All thresholds that the report stands on, and the sealed forecast over those with the device. */
export function thresholdTable(report: CaseReport, messages: Messages): Table {
  const words = messages.report.thresholds
  const measured = report.ears.flatMap((ear) => measuredRows(ear, messages))
  const frequencies = audiometricFrequenciesHz.filter(
    (hz) => always.includes(hz) || measured.some(({ audiogram }) => audiogram.has(hz)),
  )
  const rows = measured.map(({ name, audiogram }) => ({
    id: name,
    cells: [name, ...frequencies.map((hz) => levelText(audiogram.get(hz), messages))],
  }))
  return {
    caption: words.caption,
    columns: [
      { name: words.row, share: 34, align: 'start' },
      ...frequencies.map((hz) => ({ name: String(hz), share: 66 / frequencies.length, align: 'end' as const })),
    ],
    groups: [{ rows: [...rows, ...forecastRows(report, frequencies, messages)] }],
  }
}

function measuredRows({ ear, before, after }: EarReport, { report, words }: Messages) {
  const labels = report.thresholds
  const of = (occasion: OccasionTests, name: string) =>
    routes.flatMap((route) => {
      const audiogram = routeOf(occasion, route)
      return audiogram.size === 0 ? [] : [{ name: labels.name(words.ear[ear], name, labels.route[route]), audiogram }]
    })
  return [...of(before, labels.before), ...(after === undefined ? [] : of(after, labels.after))]
}

function levelText(threshold: Threshold | undefined, { report }: Messages): string {
  const words = report.thresholds
  if (threshold === undefined) return words.notTested
  switch (threshold.kind) {
    case 'heard':
      return words.heard(threshold.level)
    case 'no-response':
      return words.noResponse(threshold.limit)
    case 'could-not-test':
      return words.couldNotTest
    default:
      return threshold satisfies never
  }
}

function forecastRows({ forecast, score }: CaseReport, frequencies: readonly FrequencyHz[], messages: Messages): Row[] {
  if (forecast === undefined) return []
  const words = messages.report.thresholds
  const { byFrequency, inputs } = forecast.content
  const estimates = new Map(
    byFrequency.flatMap(({ frequency, aidedThreshold }) =>
      aidedThreshold.kind === 'estimate' ? [[frequency, aidedThreshold] as const] : [],
    ),
  )
  const errors = new Map(
    score?.byFrequency.flatMap(({ frequency, score: at }) =>
      at.kind === 'scored' ? [[frequency, at.error] as const] : [],
    ),
  )
  const row = (name: string, textAt: (hz: FrequencyHz) => string | undefined): Row => ({
    id: name,
    cells: [name, ...frequencies.map((hz) => textAt(hz) ?? words.notTested)],
  })
  return [
    row(words.forecast(messages.words.ear[inputs.ear]), (hz) => {
      const estimate = estimates.get(hz)
      return estimate && words.heard(Math.round(estimate.value))
    }),
    row(words.interval, (hz) => {
      const estimate = estimates.get(hz)
      return estimate && words.range(estimate.interval.low, estimate.interval.high)
    }),
    ...(score === undefined
      ? []
      : [
          row(words.error, (hz) => {
            const error = errors.get(hz)
            return error === undefined ? undefined : words.signed(error)
          }),
        ]),
  ]
}

/** Whether anything at all was measured on an occasion. */
export const hasThresholds = (occasion: OccasionTests): boolean =>
  routes.some((route) => (routeOf(occasion, route) satisfies Audiogram).size > 0)
