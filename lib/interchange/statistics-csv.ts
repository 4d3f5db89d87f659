import Papa from 'papaparse'
import type { Threshold } from '../audiometry/thresholds.ts'
import { earCourseOf } from '../board/ear-course.ts'
import { isReception, isScore, type SpeechTest } from '../board/records/speech-test.ts'
import { isHeld, type Visit } from '../board/records/visit.ts'
import type { EarMeasured, ForecastAt } from '../outcomes/ear-course.ts'
import { audiometricFrequenciesHz, type Ear, type FrequencyHz, otherEar } from '../units/frequencies.ts'
import type { CaseRecords } from './case-records.ts'

/**
 * Tables for a statistics program: thresholds with one row a case, ear, visit and frequency, speech tests with one row a
 * test, and the dictionary that says what each column holds. All three come from the same list of columns.
 */
export type StatisticsCase = Pick<
  CaseRecords,
  'header' | 'plan' | 'tests' | 'speechTests' | 'visits' | 'forecasts' | 'steps'
>

export interface StatisticsTables {
  readonly thresholds: string
  readonly speech: string
  readonly dictionary: string
}

type Cell = string | number | undefined

interface Column<Row> {
  readonly name: string
  readonly unit: string
  readonly meaning: string
  readonly of: (row: Row) => Cell
}

interface OfCase {
  readonly caseId: string
  readonly records: StatisticsCase
  readonly ear: Ear
  readonly operatedOn: string | undefined
}

interface OfVisit extends OfCase {
  /** absent: before the operation */
  readonly visit: Visit | undefined
}

interface ThresholdRow extends OfVisit {
  readonly ofEar: Ear
  readonly frequency: FrequencyHz
  readonly measured: EarMeasured
  readonly forecast: ForecastAt | undefined
}

interface SpeechRow extends OfVisit {
  readonly test: SpeechTest
}

/** @param operatedOn calendar day of the operation, where it is known */
export function statisticsTables(
  caseId: string,
  records: StatisticsCase,
  operatedOn: string | undefined,
): StatisticsTables {
  const ear = records.plan[0]?.ear ?? records.header[0]?.ear
  const of = ear === undefined ? undefined : { caseId, records, ear, operatedOn }
  return {
    thresholds: csv(thresholdColumns, of === undefined ? [] : thresholdRows(of)),
    speech: csv(speechColumns, of === undefined ? [] : speechRows(of)),
    dictionary: dictionary(),
  }
}

function csv<Row>(columns: readonly Column<Row>[], rows: readonly Row[]): string {
  return written(
    columns.map(({ name }) => name),
    rows.map((row) => columns.map((column) => column.of(row) ?? '')),
  )
}

/** A cell of text that a spreadsheet would take for a formula gets an apostrophe in front; numbers stay numbers. */
const written = (fields: string[], data: (string | number)[][]): string =>
  `${Papa.unparse({ fields, data }, { newline: '\r\n', escapeFormulae: true })}\r\n`

/** Present on every occasion, measured or not, so that a missing value is seen as missing. */
const alwaysShown: readonly FrequencyHz[] = [250, 500, 1000, 2000, 3000, 4000, 6000, 8000]
const routes = ['air', 'bone', 'soundField', 'aided'] as const

function thresholdRows(of: OfCase): ThresholdRow[] {
  const { ear, operatedOn, records } = of
  const { tests, speechTests, visits, forecasts } = records
  const course = earCourseOf({ ear, tests, speechTests, visits, forecasts, operatedOn })
  const byId = new Map(visits.map((visit) => [visit.id, visit]))
  const occasions = [
    { visit: undefined, own: course.before, other: course.otherBefore },
    ...course.visits.map((each) => ({ visit: byId.get(each.visit), own: each.ear, other: each.otherEar })),
  ]
  return occasions.flatMap(({ visit, own, other }) => [
    ...rowsOfEar({ ...of, visit }, ear, own, course.forecast ?? []),
    ...rowsOfEar({ ...of, visit }, otherEar(ear), other, []),
  ])
}

function rowsOfEar(of: OfVisit, ofEar: Ear, measured: EarMeasured, forecasts: readonly ForecastAt[]): ThresholdRow[] {
  const isShown = (frequency: FrequencyHz) =>
    alwaysShown.includes(frequency) || routes.some((route) => measured[route]?.thresholds.has(frequency))
  return audiometricFrequenciesHz.filter(isShown).map((frequency) => ({
    ...of,
    ofEar,
    frequency,
    measured,
    forecast: forecasts.find((each) => each.frequency === frequency),
  }))
}

function speechRows(of: OfCase): SpeechRow[] {
  const byId = new Map(of.records.visits.map((visit) => [visit.id, visit]))
  return of.records.speechTests
    .filter(({ state }) => state !== 'entered-in-error')
    .map((test) => ({ ...of, test, visit: byId.get(test.visit ?? '') }))
}

const caseColumns: readonly Column<OfVisit>[] = [
  { name: 'case_id', unit: '', meaning: 'id of the case on the board', of: ({ caseId }) => caseId },
  {
    name: 'case_pseudonym',
    unit: '',
    meaning: 'pseudonym of the patient; never a name',
    of: ({ records }) => records.header[0]?.pseudonym,
  },
  {
    name: 'age_years',
    unit: 'years',
    meaning: 'age as the case says it',
    of: ({ records }) => records.header[0]?.ageYears,
  },
  { name: 'sex', unit: '', meaning: 'female, male or not-stated', of: ({ records }) => records.header[0]?.sex },
  { name: 'operated_ear', unit: '', meaning: 'right or left', of: ({ ear }) => ear },
  {
    name: 'device_class',
    unit: '',
    meaning: 'class of the planned device; empty while none is chosen',
    of: ({ records }) => records.plan[0]?.deviceClass,
  },
  {
    name: 'coupling_site',
    unit: '',
    meaning: 'where the device drives; empty while none is chosen',
    of: ({ records }) => records.plan[0]?.couplingSite,
  },
  {
    name: 'operated_on',
    unit: 'day, ISO 8601',
    meaning: 'day of the operation; empty where it is not known',
    of: ({ operatedOn }) => operatedOn,
  },
]

const visitColumns: readonly Column<OfVisit>[] = [
  {
    name: 'visit',
    unit: '',
    meaning: 'before (before the operation, or of no visit), or the occasion of the visit',
    of: ({ visit }) => visit?.occasion ?? 'before',
  },
  {
    name: 'visit_year',
    unit: 'years',
    meaning: 'of a yearly visit, after the first fitting',
    of: ({ visit }) => visit?.year,
  },
  {
    name: 'visit_on',
    unit: 'day, ISO 8601',
    meaning: 'day on which the visit was held',
    of: ({ visit }) => (visit !== undefined && isHeld(visit) ? visit.held.on : undefined),
  },
  {
    name: 'days_after_operation',
    unit: 'days',
    meaning: 'from the operation to the visit; empty where one of the two days is not known',
    of: ({ visit, operatedOn }) =>
      visit?.held === undefined || operatedOn === undefined ? undefined : daysBetween(operatedOn, visit.held.on),
  },
]

const daysBetween = (from: string, to: string): number => Math.round((Date.parse(to) - Date.parse(from)) / 86_400_000)

const routeWords = {
  air: { name: 'air', words: 'by air conduction without a device' },
  bone: { name: 'bone', words: 'by bone conduction' },
  soundField: { name: 'sound_field', words: 'in the sound field without a device' },
  aided: { name: 'aided', words: 'in the sound field with the device' },
} as const

const thresholdAt = ({ measured, frequency }: ThresholdRow, route: (typeof routes)[number]): Threshold | undefined =>
  measured[route]?.thresholds.get(frequency)

const routeColumns = (route: (typeof routes)[number]): Column<ThresholdRow>[] => {
  const { name, words } = routeWords[route]
  return [
    {
      name: `${name}_db_hl`,
      unit: 'dB HL',
      meaning: `threshold ${words}; with ${name}_response no-response the limit up to which nothing was heard`,
      of: (row) => levelOf(thresholdAt(row, route)),
    },
    {
      name: `${name}_response`,
      unit: '',
      meaning: 'heard, no-response or could-not-test; empty where it was not measured',
      of: (row) => thresholdAt(row, route)?.kind,
    },
    {
      name: `${name}_masked`,
      unit: '',
      meaning: '1 with masking of the other ear, 0 without',
      of: (row) => {
        const threshold = thresholdAt(row, route)
        return threshold === undefined || threshold.kind === 'could-not-test' ? undefined : Number(threshold.masked)
      },
    },
  ]
}

const levelOf = (threshold: Threshold | undefined): number | undefined =>
  threshold === undefined || threshold.kind === 'could-not-test'
    ? undefined
    : threshold.kind === 'heard'
      ? threshold.level
      : threshold.limit

const thresholdColumns: readonly Column<ThresholdRow>[] = [
  ...caseColumns,
  ...visitColumns,
  { name: 'ear', unit: '', meaning: 'ear of this row: right or left', of: ({ ofEar }) => ofEar },
  { name: 'frequency_hz', unit: 'Hz', meaning: 'frequency of this row', of: ({ frequency }) => frequency },
  ...routes.flatMap(routeColumns),
  {
    name: 'forecast_aided_db_hl',
    unit: 'dB HL',
    meaning: 'aided threshold that the sealed forecast expects; empty without forecast, and of the other ear',
    of: ({ forecast }) => forecast?.aidedThreshold,
  },
  {
    name: 'forecast_effective_gain_db',
    unit: 'dB',
    meaning: 'bone conduction less aided threshold that the sealed forecast expects',
    of: ({ forecast }) => forecast?.effectiveGain,
  },
]

const speechColumns: readonly Column<SpeechRow>[] = [
  ...caseColumns,
  ...visitColumns,
  { name: 'ear', unit: '', meaning: 'right, left or both', of: ({ test }) => test.ear },
  { name: 'condition', unit: '', meaning: 'unaided, sound-field or aided', of: ({ test }) => test.condition },
  { name: 'performed_on', unit: 'day, ISO 8601', meaning: 'day of the test', of: ({ test }) => test.performedOn },
  { name: 'state', unit: '', meaning: 'current or superseded', of: ({ test }) => test.state },
  { name: 'material', unit: '', meaning: 'kind of speech material', of: ({ test }) => test.material },
  { name: 'list', unit: '', meaning: 'list, in the words of the clinic', of: ({ test }) => test.listName },
  {
    name: 'items',
    unit: 'items',
    meaning: 'items presented',
    of: ({ test }) => (isScore(test) ? test.items : undefined),
  },
  {
    name: 'items_right',
    unit: 'items',
    meaning: 'items repeated correctly',
    of: ({ test }) => (isScore(test) ? test.right : undefined),
  },
  { name: 'speech_level_db_spl', unit: 'dB SPL', meaning: 'level of the speech', of: ({ test }) => test.speechLevel },
  {
    name: 'noise_level_db_spl',
    unit: 'dB SPL',
    meaning: 'level of the noise; empty in quiet',
    of: ({ test }) => test.noiseLevel,
  },
  {
    name: 'reception_threshold_db_hl',
    unit: 'dB HL',
    meaning: 'speech reception threshold; empty for a score',
    of: ({ test }) => (isReception(test) ? test.receptionThreshold : undefined),
  },
]

function dictionary(): string {
  const rowsOf = (file: string, columns: readonly Pick<Column<never>, 'name' | 'unit' | 'meaning'>[]) =>
    columns.map(({ name, unit, meaning }) => [file, name, unit, meaning])
  return written(
    ['file', 'column', 'unit', 'meaning'],
    [...rowsOf('thresholds.csv', thresholdColumns), ...rowsOf('speech.csv', speechColumns)],
  )
}
