import { layerOf } from '@/app/audiogram/layers.ts'
import { visitName } from '@/app/follow-up/visit-name.ts'
import type { Messages } from '@/app/messages/for-report.ts'
import { calendarDayOf } from '@/app/messages/moments.ts'
import type { GradeResult } from '@/lib/audiometry/grades.ts'
import { ComplicationKind } from '@/lib/board/records/visit.ts'
import type { CaseReport, EarReport, UsedRecord } from '@/lib/report/case-report.ts'
import type { OccasionTests } from '@/lib/report/occasion-tests.ts'
import { contingencyEntry } from './contingency-entry.ts'
import { forecastEntries } from './forecast-entries.ts'
import { recordMeasures } from './measure-tables.ts'
import type { Block, Chart, Entry, Sheet } from './sheet.ts'
import { shortened } from './shortened.ts'
import { hasThresholds, thresholdTable } from './threshold-rows.ts'

export interface SheetWords {
  readonly messages: Messages
  readonly nameOf: (participant: string) => string
}

/** More would not leave the page its one side; the rest stands in the appendix, and the line says so. */
const mostContingencies = 4
const mostComplications = 5
/** Characters of a plan on the page of the record. */
const longestPlan = 110

/** One page for the record: who, what, before and after, forecast, contingencies, complications, codes. */
export function recordSheet(report: CaseReport, words: SheetWords): Sheet {
  const { messages } = words
  const measures = recordMeasures(report, messages)
  const labels = messages.report
  return {
    kind: 'record',
    heading: labels.heading.record,
    blocks: [
      ...warningsOf(report, messages),
      { kind: 'facts', facts: factsOf(report, messages) },
      { kind: 'charts', charts: chartsOf(report, messages) },
      { kind: 'table', id: 'thresholds', table: thresholdTable(report, messages), tone: 'dense' },
      { kind: 'table', id: 'measures', table: measures.table, tone: 'dense' },
      { kind: 'list', title: labels.forecast.title, entries: forecastEntries(report, words), tone: 'plain' },
      { kind: 'list', title: labels.contingencies.title, entries: contingencyLines(report, messages), tone: 'plain' },
      { kind: 'list', title: labels.complications.title, entries: complicationLines(report, messages), tone: 'plain' },
      { kind: 'list', title: labels.used.title, entries: usedLines(report, messages), tone: 'fine' },
      { kind: 'list', title: labels.sources, entries: measures.sources, tone: 'fine' },
    ],
    cautions: labels.cautions,
  }
}

export function warningsOf({ visit, ears }: CaseReport, { report }: Messages): readonly Block[] {
  if (visit === undefined) return [{ kind: 'warning', text: report.noOutcome }]
  const operated = ears[0]?.after
  return operated === undefined || hasThresholds(operated) ? [] : [{ kind: 'warning', text: report.noTestsOfVisit }]
}

export function factsOf(report: CaseReport, messages: Messages): readonly (readonly [string, string])[] {
  const { report: labels, words } = messages
  const { header, plan, operatedOn, visit, daysSinceOperation, ears } = report
  const { fact } = labels
  const age = header?.ageYears === undefined ? '' : labels.years(header.ageYears)
  const patient = [header === undefined ? '' : labels.sex[header.sex], age].filter((part) => part !== '').join(', ')
  const operated = ears[0]
  return [
    [fact.ear, earsText(ears, messages)],
    [fact.patient, patient === '' ? fact.notStated : patient],
    [fact.device, plan?.deviceClass === undefined ? fact.undecided : words.deviceClass[plan.deviceClass]],
    [fact.site, plan?.couplingSite === undefined ? fact.undecided : words.couplingSite[plan.couplingSite]],
    [fact.operated, operatedOn === undefined ? fact.unknown : calendarDayOf(operatedOn)],
    [
      fact.visit,
      visit === undefined ? labels.noVisit : labels.visitOn(visitName(visit, messages), calendarDayOf(visit.held.on)),
    ],
    [
      fact.interval,
      daysSinceOperation === undefined
        ? fact.unknown
        : labels.interval(labels.days(daysSinceOperation), daysSinceOperation >= 365),
    ],
    ...(operated === undefined ? [] : judgementsOf(operated, messages)),
  ]
}

/** "Left ear", "Left ear and right ear". */
const earsText = (ears: readonly EarReport[], { report, words }: Messages): string =>
  ears.map(({ ear }, index) => (index === 0 ? words.ear[ear] : words.ear[ear].toLowerCase())).join(report.and)

function judgementsOf(
  { grade, lossType }: EarReport,
  { report, measures }: Messages,
): readonly (readonly [string, string])[] {
  const { fact, beforeAndAfter } = report
  const gradeText = (of: GradeResult) =>
    of.grade === undefined ? fact.unknown : measures.gradeWords(of.grade, of.orWorse)
  const before = gradeText(grade.before)
  const type = report.lossType[lossType.before]
  return [
    [fact.grade, grade.after === undefined ? before : beforeAndAfter(before, gradeText(grade.after))],
    [fact.loss, lossType.after === undefined ? type : beforeAndAfter(type, report.lossType[lossType.after])],
  ]
}

function chartsOf({ ears, visit }: CaseReport, messages: Messages): readonly Chart[] {
  const { report } = messages
  const named = earsText(ears, messages)
  const layers = (of: (ear: EarReport) => OccasionTests | undefined) =>
    ears.flatMap((ear) => Object.values(of(ear)?.hearing ?? {}).map((test) => layerOf(test, 'current')))
  return [
    { label: report.chart.before(named), layers: layers(({ before }) => before) },
    ...(visit === undefined ? [] : [{ label: report.chart.after(named), layers: layers(({ after }) => after) }]),
  ]
}

function contingencyLines(report: CaseReport, messages: Messages): readonly Entry[] {
  const { contingencies } = report
  const labels = messages.report.contingencies
  if (contingencies.length === 0) return [{ id: 'none', text: labels.none }]
  const shown = contingencies
    .slice(0, mostContingencies)
    .map((of) => contingencyEntry(of, report, messages, longestPlan))
  const rest = contingencies.length - shown.length
  return rest === 0 ? shown : [...shown, { id: 'more', text: labels.more(rest) }]
}

/** Of every held visit up to the chosen one, so that what was found and resolved before is not lost. */
function complicationLines({ visit, heldVisits }: CaseReport, messages: Messages): readonly Entry[] {
  const { report, followUp, shell } = messages
  const labels = report.complications
  if (visit === undefined) return [{ id: 'none', text: labels.noVisit }]
  const until = heldVisits.slice(0, heldVisits.indexOf(visit) + 1)
  const noted = ComplicationKind.options.flatMap((kind): Entry[] => {
    const courses = until.flatMap((held) => {
      const found = held.complications[kind]
      const course = found && followUp.visit.course[found.course]
      return found && course ? [labels.course(course, visitName(held, messages), shortened(found.words, 60))] : []
    })
    const name = followUp.visit.complication[kind]
    return courses.length === 0 ? [] : [{ id: kind, text: labels.line(name, shell.separated(courses.slice(-3))) }]
  })
  const soughtNow = visit.complicationsSought === true
  const now: Entry[] =
    Object.keys(visit.complications).length > 0 ? [] : [{ id: 'now', text: soughtNow ? labels.none : labels.notSought }]
  const shown = noted.slice(-mostComplications)
  return [...shown, ...(shown.length < noted.length ? [{ id: 'rest', text: labels.shortened }] : []), ...now]
}

function usedLines({ ears }: CaseReport, messages: Messages): readonly Entry[] {
  const labels = messages.report.used
  const used = ears.flatMap((ear) => ear.used)
  if (used.length === 0) return [{ id: 'none', text: labels.none }]
  return [{ id: 'all', text: messages.shell.separated(used.map((record) => usedText(record, messages))) }]
}

function usedText({ code, performedOn, isVerified, of }: UsedRecord, { report, words }: Messages): string {
  const labels = report.used
  const { ear, condition } = of.test
  const earName = ear === 'both' ? `${words.earShort.right}${report.and}${words.earShort.left}` : words.earShort[ear]
  const what = (of.kind === 'hearing' ? labels.hearing : labels.speech)(
    earName,
    words.condition[condition].toLowerCase(),
  )
  return labels.line(code, what, calendarDayOf(performedOn), isVerified ? labels.verified : labels.notVerified)
}
