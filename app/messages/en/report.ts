import type { SourceStatus } from '@/lib/audiometry/provenance.ts'
import type { ReportMeasure, ReportStandard, RowNote } from '@/lib/report/report-rows.ts'
import type { AbsentWhy } from '@/lib/report/report-value.ts'
import { words } from './words.ts'

const minus = (text: string): string => text.replaceAll('-', '−')
const plain = (value: number): string => minus(String(Math.round(value * 10) / 10))
const signed = (value: number): string => {
  const rounded = Math.round(value * 10) / 10
  return rounded > 0 ? `+${rounded}` : minus(String(rounded))
}
const khz = (hz: number): string => String(hz / 1000)
const frequencies = (hz: readonly number[]): string => `${hz.map(khz).join(', ')} kHz`

const standard: Readonly<Record<ReportStandard, string>> = {
  'who-2021': 'Means of four tones (World Report on Hearing, 2021)',
  'aao-1995': 'Surgery of the middle ear (AAO-HNS, 1995)',
  'gurgel-2012': 'Scattergram and word recognition (2012)',
  implants: 'Implantable devices (2018 and 2022)',
  'high-frequency': 'High frequencies',
}

const measure: Readonly<Record<ReportMeasure, string>> = {
  'air-average': 'Air conduction, mean',
  'bone-average': 'Bone conduction, mean',
  'air-bone-gap': 'Air-bone gap, mean',
  'gap-bin': 'Air-bone gap, bin',
  'bone-change': 'Bone conduction, mean',
  'word-recognition': 'Word recognition by earphone',
  'scattergram-cell': 'Scattergram cell',
  'aided-average': 'Aided threshold, mean',
  'functional-gain': 'Functional gain, mean',
  'effective-gain': 'Effective gain, mean',
  'aided-residual-gap': 'Gap left with the device, mean',
  'word-score-unaided': 'Words in sound field, unaided, 65 dB SPL',
  'word-score-aided': 'Words in sound field, aided, 65 dB SPL',
  'reception-unaided': 'Speech reception threshold, earphone',
  'reception-aided': 'Speech reception threshold, aided',
  'air-at': 'Air conduction',
  'bone-at': 'Bone conduction',
  'aided-at': 'Aided threshold',
  'high-average': 'Air conduction, mean',
}

const note: Readonly<Record<RowNote, string>> = {
  'three-kilohertz-interpolated': '3 kHz from 2 and 4 kHz',
  'three-kilohertz-uncertain': '3 kHz from 2 and 4 kHz, which lie far apart',
  'bone-from-before': 'bone conduction from before the operation',
  'sound-field-from-before': 'unaided sound field from before the operation',
  'earphone-for-sound-field': 'unaided by earphone before the operation; no sound field',
  'best-score-of-occasion': 'monosyllables in quiet, best score',
}

const why: Readonly<Record<AbsentWhy, string>> = {
  'no-outcome': 'no outcome yet',
  'no-test': 'not measured',
  'could-not-test': 'could not test',
  'no-response': 'no response: cannot be told',
  'another-level': 'not at the same level',
}

/** The report of a case. Signs that the embedded font lacks (such as "greater or equal") are written in words. */
export const report = {
  pageTitle: 'Report',
  toFollowUp: 'Follow-up',
  toBoard: 'Board of the case',
  print: 'Print',
  download: 'Download PDF',
  downloading: 'Making the PDF ...',
  downloadFailed: 'The PDF could not be made here. Print this page to a PDF instead.',
  unsettable: (count: number) =>
    count === 1
      ? '1 sign of the text has no letter in the PDF and stands there as "?". Print this page to a PDF to keep it.'
      : `${count} signs of the text have no letter in the PDF and stand there as "?". Print this page to a PDF to keep them.`,
  copy: 'Copy the publication table',
  copied: 'Table copied. Paste it into a spreadsheet.',
  copyFailed: 'This browser did not let the table be copied. Download it instead.',
  csv: 'Download the table as CSV',
  visit: 'Visit',
  ears: 'Ears',
  earChoice: { operated: 'Operated ear', both: 'Both ears' },
  noVisit: 'No visit has been held',
  visitOn: (visit: string, day: string) => `${visit}, ${day}`,
  fileName: (pseudonym: string, day: string) => `report-${pseudonym}-${day}`,
  foot: (pseudonym: string, moment: string) =>
    `${pseudonym}, as of ${moment}. Decision support, not a medical device; labelling, local codes and the treating team decide.`,
  page: (page: number, pages: number) => `${page} / ${pages}`,

  heading: { record: 'Report for the record', publication: 'Publication table', appendix: 'Appendix' },
  generated: (moment: string) => `From the board as it stood on ${moment}`,
  linking: 'Not linked to the board yet. What stands here may be old.',
  linkLost: 'The link to the board is lost. What stands here may be old.',
  noOutcome:
    'No visit has been held yet, so there is no outcome to report. What stands here is the ear before its operation.',
  noTestsOfVisit: 'No hearing test was filed under this visit. Its outcome cannot be reported.',

  fact: {
    ear: 'Ear',
    patient: 'Patient',
    device: 'Device class',
    site: 'Coupling site',
    operated: 'Operated on',
    visit: 'Visit',
    interval: 'Since operation',
    phase: 'Phase',
    grade: 'Grade of the ear',
    loss: 'Type of loss',
    notStated: 'not stated',
    undecided: 'not decided',
    unknown: 'not known',
  },
  sex: { female: 'woman', male: 'man', 'not-stated': '' },
  years: (years: number) => `${years} years`,
  days: (days: number) => (days === 1 ? '1 day' : `${days} days`),
  interval: (days: string, isLong: boolean) =>
    `${days}: ${isLong ? 'result at one year or later' : 'short-term result, under one year'}`,
  beforeAndAfter: (before: string, after: string) => `${before}; at the visit ${after}`,
  orWorse: (grade: string) => `at least ${grade}`,
  lossType: {
    none: 'no loss',
    conductive: 'conductive',
    mixed: 'mixed',
    sensorineural: 'sensorineural',
    unknown: 'cannot be told',
  },

  before: 'Before',
  after: 'At the visit',
  change: 'Change',
  changeHint: 'Change: positive is better.',
  chart: {
    before: (ears: string) => `Before the operation: ${ears}`,
    after: (ears: string) => `At the visit: ${ears}`,
  },
  and: ' and ',
  notMeasuredYet: 'Nothing measured',

  thresholds: {
    caption:
      'Thresholds in dB HL by frequency in Hz. – not measured; NR no response at this limit; CNT could not test.',
    row: 'Hz',
    route: { air: 'air', bone: 'bone', 'sound-field': 'sound field', aided: 'aided' },
    name: (ear: string, occasion: string, route: string) => `${ear}, ${occasion}: ${route}`,
    before: 'before',
    after: 'visit',
    heard: plain,
    noResponse: (limit: number) => `NR ${plain(limit)}`,
    couldNotTest: 'CNT',
    notTested: '–',
    forecast: (ear: string) => `${ear}, forecast: aided`,
    interval: '80 % interval',
    error: 'Error, dB',
    range: (low: number, high: number) => `${minus(String(Math.round(low)))} to ${minus(String(Math.round(high)))}`,
    signed,
  },
  measuresCaption:
    'Reporting measures, each with the tones it is a mean of, the number of its source, and what is missing.',
  publicationCaption:
    'Every line stands here whether it was measured or not. Source numbers are below. dB HL for thresholds, dB for gaps and gains.',
  column: { measure: 'Measure', source: 'Source' },
  columnOf: (column: string, ear: string) => `${column}, ${ear}`,
  measure,
  standard,
  note,
  over: (hz: readonly number[]) => frequencies(hz),
  value: {
    plain,
    signed,
    atLeast: (text: string) => `at least ${text}`,
    atMost: (text: string) => `at most ${text}`,
    undetermined: why['no-response'],
    missing: (hz: readonly number[]) => `not measured: ${frequencies(hz)}`,
    score: (percent: number, right: number, items: number) => `${plain(percent)} % (${right}/${items})`,
    points: (points: number) => `${signed(points)} points`,
    bin: {
      '<= 10': '10 dB or less',
      '> 10 to 20': 'over 10 to 20 dB',
      '> 20 to 30': 'over 20 to 30 dB',
      '> 30': 'over 30 dB',
    },
    cell: (average: string, score: string) => `${average} dB HL, ${score} %`,
    upTo: (to: number) => `up to ${to}`,
    over: (above: number) => `over ${above}`,
    between: (above: number, to: number) => `over ${above} to ${to}`,
    why,
    none: '–',
  },
  sources: 'Sources',
  source: (source: string, status_: SourceStatus, reservation: string | undefined) =>
    `${source} (${words.sourceStatus[status_]}${reservation === undefined ? '' : `; ${reservation}`})`,

  forecast: {
    title: 'Forecast and its score',
    none: 'No forecast was sealed before the operation.',
    sealed: (name: string, day: string) => `Sealed by ${name} on ${day}.`,
    expected: (value: number, low: number, high: number) =>
      `Aided four-tone mean forecast: ${plain(value)} dB HL, 80 % interval ${plain(low)} to ${plain(high)}.`,
    noAided: 'No aided threshold was measured at this visit, so it has no score yet.',
    measured: (value: number, error: number, inside: string) =>
      `Measured: ${plain(value)} dB HL, error ${signed(error)} dB (positive is worse), ${inside}.`,
    inside50: 'inside the 50 % interval',
    inside80: 'inside the 80 % interval',
    outside: 'outside the 80 % interval',
    score: (score: number) => `Continuous ranked probability score ${plain(score)} dB (0 is best).`,
    tones: (inside: number, scored: number) => `${inside} of ${scored} frequencies inside their 80 % interval.`,
    noFourTone: 'The four-tone mean has no score: one of its tones has no number.',
  },
  contingencies: {
    title: 'Contingencies',
    none: 'No contingency is written down.',
    line: (state: string, trigger: string, plan: string) => `${state}: if ${trigger}. Then: ${plan}`,
    watchedButMet: (state: string, visit: string) => `${state}, but met by the measurements of the visit "${visit}"`,
    acted: (what: string) => ` Done: ${what}`,
    more: (count: number) => (count === 1 ? '1 more is in the appendix.' : `${count} more are in the appendix.`),
  },
  complications: {
    title: 'Complications',
    none: 'None, asked and looked for at this visit.',
    notSought: 'Not asked for at this visit.',
    noVisit: 'No visit yet.',
    line: (kind: string, courses: string) => `${kind}: ${courses}`,
    course: (course: string, visit: string, words: string) =>
      `${course.toLowerCase()} (${visit}${words === '' ? '' : `: ${words.replace(/\.$/, '')}`})`,
    shortened: 'See the visits for the rest.',
  },
  used: {
    title: 'Records used, with their codes',
    none: 'No record was used.',
    verified: 'verified',
    notVerified: 'not verified',
    hearing: (ear: string, condition: string) => `${ear}, ${condition}`,
    speech: (ear: string, condition: string) => `${ear}, ${condition}, speech`,
    line: (code: string, what: string, day: string, state: string) => `${code}  ${what}, ${day}, ${state}`,
  },
  cautions: [
    'Decision support for licensed professionals, not a medical device. Forecasts are estimates from group data and a model.',
    'The device’s own labelling, local codes and the treating team decide. Check MR conditions and candidacy limits. Pseudonym only.',
  ],

  appendix: {
    decisions: 'Decisions and their votes',
    noDecisions: 'No decision is written down.',
    vote: (question: string, counts: string, notVoted: number) => `Vote: ${question} ${counts}; not voted: ${notVoted}`,
    count: (option: string, votes: number) => `${option}: ${votes}`,
    answered: 'Answered questions',
    noAnswered: 'No question was answered.',
    answer: (text: string, who: string, day: string) => `${text} (${who}, ${day})`,
    saidBy: (name: string) => `said by ${name}`,
    loggedBy: (name: string) => `written down by ${name}; who said it was not noted`,
    deferred: 'Deferred questions',
    noDeferred: 'No question is deferred.',
    waitsFor: (visit: string) => `To be answered at: ${visit}.`,
    waitsInWords: (words: string) => `Deferred to: ${words}. No visit has taken it up.`,
    waitsForNobody: 'No visit has taken it up.',
    outcome: (text: string) => `Answered at the visit: ${text}`,
    contingencies: 'All contingencies',
  },
} as const
