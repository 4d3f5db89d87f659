import { type GradeResult, gradeEar } from '../audiometry/grades.ts'
import { type LossType, typeOfLoss } from '../audiometry/type-of-loss.ts'
import { earCourseOf, standingForecast } from '../board/ear-course.ts'
import { byRank } from '../board/reading.ts'
import type { CaseHeader } from '../board/records/case-header.ts'
import type { Contingency } from '../board/records/contingency.ts'
import type { HearingTest } from '../board/records/hearing-test.ts'
import type { Plan } from '../board/records/plan.ts'
import type { ForecastRecord } from '../board/records/sealed-record.ts'
import type { SpeechTest } from '../board/records/speech-test.ts'
import { type HeldVisit, isHeld, type Visit } from '../board/records/visit.ts'
import { inOrderOfTime } from '../board/visit-plan.ts'
import { metByMeasurement } from '../board/watched-contingencies.ts'
import { type ForecastScore, scoreForecast } from '../forecast/scoring.ts'
import { scorableForecast } from '../forecast/sealed-forecast.ts'
import { recordCode, speechTestCode } from '../interchange/record-code.ts'
import { watchedOver } from '../outcomes/watched-over.ts'
import { type Ear, otherEar } from '../units/frequencies.ts'
import { type OccasionTests, occasionBefore, occasionOfVisit, routeOf } from './occasion-tests.ts'
import { publicationRows, type ReportRow, worldReportRows } from './report-rows.ts'

/** What of a case a report is made from. */
export interface ReportRecords {
  readonly header: CaseHeader | undefined
  readonly plan: Plan | undefined
  readonly tests: readonly HearingTest[]
  readonly speechTests: readonly SpeechTest[]
  readonly visits: readonly Visit[]
  readonly forecasts: readonly ForecastRecord[]
  readonly contingencies: readonly Contingency[]
  /** calendar day */
  readonly operatedOn: string | undefined
}

export interface ReportChoice {
  /** a held visit; absent or of no such visit: the last one held */
  readonly visit?: string | undefined
  readonly ears: 'operated' | 'both'
}

/** A record that a report stands on, with its code. */
export interface UsedRecord {
  readonly code: string
  readonly performedOn: string
  readonly isVerified: boolean
  readonly of:
    | { readonly kind: 'hearing'; readonly test: HearingTest }
    | { readonly kind: 'speech'; readonly test: SpeechTest }
}

export interface EarReport {
  readonly ear: Ear
  readonly isOperated: boolean
  readonly before: OccasionTests
  readonly after: OccasionTests | undefined
  /** of this ear's own average, by the limits of the World Report on Hearing, 2021 */
  readonly grade: { readonly before: GradeResult; readonly after: GradeResult | undefined }
  readonly lossType: { readonly before: LossType; readonly after: LossType | undefined }
  readonly recordRows: readonly ReportRow[]
  readonly publicationRows: readonly ReportRow[]
  readonly used: readonly UsedRecord[]
}

export interface CaseReport {
  readonly header: CaseHeader | undefined
  readonly plan: Plan | undefined
  readonly operatedOn: string | undefined
  /** held visits, in the order of time: what can be chosen */
  readonly heldVisits: readonly HeldVisit[]
  /** absent: there is no outcome yet */
  readonly visit: HeldVisit | undefined
  /** days from the operation to the visit, where both are known */
  readonly daysSinceOperation: number | undefined
  /** the operated ear first */
  readonly ears: readonly EarReport[]
  readonly forecast: ForecastRecord | undefined
  readonly score: ForecastScore | undefined
  /** those that ask for something before those that do not: met, watched, acted on, stood down */
  readonly contingencies: readonly Contingency[]
  /** watched ones that the measurements up to the visit meet, although nobody has said so: id of the visit by that of the contingency */
  readonly metByMeasurement: ReadonlyMap<string, string>
}

/** The report of a case at one visit. */
export function caseReport(records: ReportRecords, choice: ReportChoice): CaseReport {
  const { header, plan, forecasts, contingencies } = records
  const heldVisits = inOrderOfTime(records.visits).filter(isHeld)
  const visit = heldVisits.find(({ id }) => id === choice.visit) ?? heldVisits.at(-1)
  const ear = plan?.ear ?? header?.ear ?? 'right'
  const operatedOn = records.operatedOn
  const forecast = standingForecast({ ear, forecasts })
  const reportOf = (of: Ear) => earReport(records, of, of === ear, operatedOn ?? heldVisits[0]?.held.on, visit)
  const operated = reportOf(ear)
  const aided = operated.after && routeOf(operated.after, 'aided')
  return {
    header,
    plan,
    operatedOn,
    heldVisits,
    visit,
    daysSinceOperation: operatedOn && visit ? daysBetween(operatedOn, visit.held.on) : undefined,
    ears: choice.ears === 'both' ? [operated, reportOf(otherEar(ear))] : [operated],
    forecast,
    score: forecast && aided && aided.size > 0 ? scoreForecast(scorableForecast(forecast.content), aided) : undefined,
    contingencies: byUrgency(contingencies),
    metByMeasurement: metUntil(records, ear, visit && heldVisits.slice(0, heldVisits.indexOf(visit) + 1)),
  }
}

function earReport(
  records: ReportRecords,
  ear: Ear,
  isOperated: boolean,
  cutoff: string | undefined,
  visit: HeldVisit | undefined,
): EarReport {
  const before = occasionBefore(records, ear, cutoff)
  const after = visit && occasionOfVisit(records, ear, visit.id)
  const input = { before, after, deviceClass: records.plan?.deviceClass }
  const typeAt = (of: OccasionTests) => typeOfLoss({ air: routeOf(of, 'air'), bone: routeOf(of, 'bone') }, 'set-1').type
  const gradeAt = (of: OccasionTests) => gradeEar(routeOf(of, 'air'), 'who-2021')
  const published = publicationRows(input)
  return {
    ear,
    isOperated,
    before,
    after,
    grade: { before: gradeAt(before), after: after && gradeAt(after) },
    lossType: { before: typeAt(before), after: after && typeAt(after) },
    recordRows: [...worldReportRows(input), ...published.filter(isOfRecord)],
    publicationRows: published,
    used: usedRecords(before, after),
  }
}

function metUntil(
  { contingencies, tests, speechTests, forecasts, operatedOn }: ReportRecords,
  ear: Ear,
  visits: readonly HeldVisit[] = [],
): ReadonlyMap<string, string> {
  const course = earCourseOf({ ear, tests, speechTests, visits, forecasts, operatedOn })
  const met = metByMeasurement(contingencies, course, watchedOver)
  return new Map(met.map(({ contingency, visit }) => [contingency.id, visit]))
}

/** Of the publication's rows, the ones that the page of the record shows too. */
const isOfRecord = ({ measure, standard, frequencies }: ReportRow): boolean =>
  measure === 'bone-change' ||
  measure === 'high-average' ||
  measure === 'word-recognition' ||
  (standard === 'implants' && (frequencies.length === 0 || frequencies.includes(4000)))

function usedRecords(before: OccasionTests, after: OccasionTests | undefined): readonly UsedRecord[] {
  const occasions = after === undefined ? [before] : [before, after]
  return occasions.flatMap(({ hearing, speech }) => [
    ...Object.values(hearing).map(
      (test): UsedRecord => ({
        code: recordCode(test),
        performedOn: test.performedOn,
        isVerified: test.verification !== undefined,
        of: { kind: 'hearing', test },
      }),
    ),
    ...speech.map(
      (test): UsedRecord => ({
        code: speechTestCode(test),
        performedOn: test.performedOn,
        isVerified: test.verification !== undefined,
        of: { kind: 'speech', test },
      }),
    ),
  ])
}

const urgency = { met: 0, watching: 1, 'acted-on': 2, 'stood-down': 3 } as const satisfies Record<
  Contingency['state'],
  number
>

const byUrgency = (contingencies: readonly Contingency[]): readonly Contingency[] =>
  [...contingencies].sort((a, b) => urgency[a.state] - urgency[b.state] || byRank(a, b))

const daysBetween = (from: string, to: string): number => Math.round((Date.parse(to) - Date.parse(from)) / 86_400_000)
