import type { AsymmetryResult, AsymmetryRuleId } from '@/lib/audiometry/asymmetry.ts'
import type { AverageInput } from '@/lib/audiometry/averages.ts'
import type { Difference } from '@/lib/audiometry/differences.ts'
import type { InnerEarForAge } from '@/lib/audiometry/expected-for-age.ts'
import type { Severity } from '@/lib/audiometry/findings.ts'
import type { SourceStatus } from '@/lib/audiometry/provenance.ts'
import type { SpeechToneGrade } from '@/lib/audiometry/speech-agreement.ts'
import type { ChangeVerdict } from '@/lib/audiometry/test-retest.ts'
import type { LossType, LossTypeResult } from '@/lib/audiometry/type-of-loss.ts'
import type { SpeechTest } from '@/lib/board/records/speech-test.ts'
import type { Ear } from '@/lib/units/frequencies.ts'
import { findingSentences } from './findings.ts'
import { agreements, speechMaterial, toneAverages } from './speech-terms.ts'

/** At most two decimals: averages of four come in quarters of a dB. */
const number = (value: number): string => `${Math.round(value * 100) / 100}`.replace('-', '\u2212')
const kilohertz = (frequencies: readonly number[]): string =>
  `${frequencies.map((frequency) => frequency / 1000).join(', ')} kHz`
const percent = (proportion: number): string => `${Math.round(100 * proportion)} %`
const ears: Record<Ear, string> = { right: 'Right', left: 'Left' }

const lossTypes: Record<LossType, string> = {
  none: 'no loss',
  conductive: 'conductive',
  mixed: 'mixed',
  sensorineural: 'sensorineural',
  unknown: 'cannot be told',
}
const unknownBecause: Record<NonNullable<LossTypeResult['unknownBecause']>, string> = {
  'air-missing': 'air conduction is incomplete',
  'bone-missing': 'bone conduction is incomplete',
  'no-response': '"no response" leaves more than one type possible',
}
const statusWords: Record<SourceStatus, string> = {
  confirmed: 'confirmed: seen in the source or a public copy of it',
  'from memory, unconfirmed': 'from memory, unconfirmed',
  'common practice, no source': 'common practice, no source',
}
const statusShort: Record<SourceStatus, string> = {
  confirmed: '',
  'from memory, unconfirmed': 'from memory, unconfirmed',
  'common practice, no source': 'no source',
}
const inputHow: Record<AverageInput['how'], string> = {
  measured: '',
  'no-response': ' or worse (no response)',
  'no-response-by-scheme': ' (no response: the number of the scheme)',
  interpolated: ' (mean of 2000 and 4000 Hz)',
}
const asymmetryOutcomes: Record<AsymmetryResult['outcome'], string> = {
  asymmetric: 'asymmetric',
  'not asymmetric': 'not asymmetric',
  'not evaluable': 'not evaluable',
}
const asymmetryRuleNames: Record<AsymmetryRuleId, string> = {
  'rule-3000': '15 dB at 3 kHz',
  cns: '10 dB at two neighbours or 15 dB at one',
  aao15: 'average 15 dB or words 15 points',
  ng98: '15 dB at two neighbours',
  uk20: '20 dB at two neighbours',
}
const changeVerdicts: Record<ChangeVerdict, string> = {
  better: 'better',
  worse: 'worse',
  'within test-retest error': 'within test-retest error',
  'cannot tell': 'cannot tell',
}
const ageVerdicts: Record<InnerEarForAge['thresholds'][number]['verdict'], string> = {
  'as expected': 'as expected',
  'worse than expected': 'worse than expected',
  'better than expected': 'better than expected',
  'cannot tell': 'cannot tell',
}

function difference(value: Difference): string {
  switch (value.kind) {
    case 'exact':
      return `${number(value.value)} dB`
    case 'at-least':
      return `≥ ${number(value.value)} dB`
    case 'at-most':
      return `≤ ${number(value.value)} dB`
    case 'undetermined':
      return 'cannot be told'
    default:
      return value satisfies never
  }
}

/** Measures and findings beside the audiogram, and what can be laid over it. */
export const measures = {
  headings: { quoted: 'Measures', further: 'Speech, device and change' },
  ears,
  notTested: 'not tested',
  noValue: 'incomplete',
  how: 'How computed',
  level: (value: number, lowerBound: boolean) => `${lowerBound ? '≥ ' : ''}${number(value)} dB HL`,
  difference,
  missing: (frequencies: readonly number[]) => `${kilohertz(frequencies)} not tested`,
  names: {
    'air-who': 'PTA 0.5, 1, 2, 4 kHz',
    'air-biap': 'PTA 0.5, 1, 2, 4 kHz',
    'air-asha': 'PTA 0.5, 1, 2 kHz',
    'air-aao': 'PTA 0.5, 1, 2, 3 kHz',
    'grade-who': 'Grade of the ear',
    'grade-biap': 'Grade of the ear',
    'grade-asha': 'Grade of the ear',
    'bone-who': 'Bone conduction 0.5, 1, 2, 4 kHz',
    'bone-asha': 'Bone conduction 0.5, 1, 2 kHz',
    'bone-aao': 'Bone conduction 0.5, 1, 2, 3 kHz',
    'gap-who': 'Air-bone gap 0.5, 1, 2, 4 kHz',
    'gap-asha': 'Air-bone gap 0.5, 1, 2 kHz',
    'gap-aao': 'Air-bone gap 0.5, 1, 2, 3 kHz',
    type: 'Type of loss',
    high: 'High frequencies 4, 6, 8 kHz',
    age: 'Inner ear for age and sex',
    'reception-unaided': 'Speech reception threshold',
    'reception-aided': 'Speech reception with device',
    'words-unaided': 'Word score without device',
    'words-aided': 'Word score with device',
    'index-unaided': 'Speech intelligibility index',
    'index-aided': 'Index with device',
    'functional-gain': 'Functional gain 0.5, 1, 2, 4 kHz',
    'effective-gain': 'Effective gain 0.5, 1, 2, 4 kHz',
    'air-change': 'Air conduction, change',
    'bone-change': 'Bone conduction, change',
    'better-ear': 'Grade, better ear',
    asymmetry: 'Asymmetry',
  },
  conventions: {
    'air-who': 'WHO 2021',
    'air-biap': 'BIAP 02/1 bis, rounded up',
    'air-asha': 'ASHA 1988',
    'air-aao': 'AAO-HNS 1995',
    'grade-who': 'WHO 2021 scale',
    'grade-biap': 'BIAP 02/1 bis scale',
    'grade-asha': 'Clark 1981 scale (ASHA)',
    'bone-who': 'frequencies of WHO 2021',
    'bone-asha': 'frequencies of ASHA 1988',
    'bone-aao': 'AAO-HNS 1995',
    'gap-who': 'frequencies of WHO 2021, same test',
    'gap-asha': 'frequencies of ASHA 1988, same test',
    'gap-aao': 'AAO-HNS 1995, same test',
    type: 'gap > 10 dB, loss > 15 dB HL',
    high: 'air conduction',
    'reception-unaided': 'half of the items right',
    'reception-aided': 'half of the items right',
    'words-unaided': 'monosyllables in quiet',
    'words-aided': 'monosyllables in quiet',
    'index-unaided': 'speech at 65 dB SPL in quiet',
    'index-aided': 'speech at 65 dB SPL in quiet',
    'functional-gain': 'sound field − aided',
    'effective-gain': 'bone − aided; 0: gap closed',
    'better-ear': 'WHO 2021',
    asymmetry: 'five rules',
  },
  quoteBy: 'Quote first',
  conventionNames: { who: 'WHO 2021', biap: 'BIAP', asha: 'Clark / ASHA', aao: 'AAO-HNS 1995' },
  otherConventions: 'By the other conventions',
  ageConvention: (edition: string) => `ISO 7029:${edition}, 10 to 90 %`,
  changeConvention: 'against the test before, ISO 8253-1 repeatability',
  lossTypes,
  unknownBecause,
  gradeWords: (grade: string, orWorse: boolean) => (orWorse ? `at least ${grade}` : grade),
  unilateral: 'unilateral hearing loss',
  uncertain3000: '3 kHz interpolated, uncertain: 2 and 4 kHz differ by more than 15 dB',
  interpolated3000: '3 kHz interpolated from 2 and 4 kHz',
  howWords: {
    inputs: 'Inputs',
    air: 'Air conduction',
    bone: 'Bone conduction',
    soundField: 'Sound field',
    aided: 'Aided',
    formula: 'Formula',
    missing: 'Missing',
    tests: 'Tests',
    source: 'Source',
    status: 'Status',
    reservation: 'Reservation',
    byFrequency: 'By frequency',
    range: 'By chance',
    audible: 'Audible',
    sign: 'Sign',
  },
  input: (frequency: number, level: number, masked: boolean, how: AverageInput['how']) =>
    `${frequency} Hz ${number(level)}${masked ? ' masked' : ''}${inputHow[how]}`,
  meanFormula: (levels: readonly number[], result: string) =>
    `(${levels.map(number).join(' + ')}) / ${levels.length} = ${result}`,
  minusFormula: (minuend: string, subtrahend: string, result: string) => `${minuend} − ${subtrahend} = ${result}`,
  typeFormula: (air: string, bone: string, gap: string) => `air ${air}, bone ${bone}, gap ${gap}`,
  gradeFormula: (average: string) => `grade of the unrounded average ${average}`,
  testOf: (condition: string, day: string) => `${condition}, ${day}`,
  atFrequency: (frequency: number, text: string) => `${frequency} Hz ${text}`,
  wordScore: (proportion: number, low: number, high: number) =>
    `${percent(proportion)} (${Math.round(100 * low)} to ${Math.round(100 * high)})`,
  wordScoreAt: (level: number, right: number, items: number, day: string) =>
    `${right} of ${items} right at ${number(level)} dB SPL, ${day}`,
  wordScoreRemark: (level: number) => `at ${number(level)} dB SPL`,
  materials: speechMaterial as Record<SpeechTest['material'], string>,
  reception: {
    test: (material: string, day: string) => `${material}, ${day}`,
    averages: toneAverages,
    difference: (value: number) => `${number(value)} dB`,
    agreement: (value: number, grade: SpeechToneGrade) =>
      `${value === 0 ? 'the same as' : `${number(Math.abs(value))} dB ${value < 0 ? 'better' : 'poorer'} than`} the tones: ${agreements[grade]} agreement`,
  },
  index: (value: number, upperBound: boolean) => `${upperBound ? '≤ ' : ''}${value.toFixed(2)}`,
  indexHow: {
    formula: 'sum over the one-third-octave bands of importance × audibility',
    band: (frequency: number, audible: number) => `${frequency} Hz ${percent(audible)}`,
    conductive: {
      'from-bone-conduction': 'the air-bone gap spares the level distortion',
      'not-known': 'no bone conduction: the whole loss counts as of the inner ear',
    },
    beyondLimit: (frequencies: readonly number[]) => `upper bound: no response bears on ${kilohertz(frequencies)}`,
    held: (frequencies: readonly number[]) =>
      `outside the tested range, nearest threshold held: ${kilohertz(frequencies)}`,
  },
  change: {
    better: (frequencies: readonly number[]) => `↑ better ${kilohertz(frequencies)}`,
    worse: (frequencies: readonly number[]) => `↓ worse ${kilohertz(frequencies)}`,
    within: '≈ within error',
    unknown: (frequencies: readonly number[]) => `cannot tell ${kilohertz(frequencies)}`,
    since: (day: string) => `since ${day}`,
    at: (frequency: number, low: number, high: number, verdict: ChangeVerdict) =>
      `${frequency} Hz ${low === high ? signed(low) : `${signed(low)} to ${signed(high)}`}: ${changeVerdicts[verdict]}`,
    range: (frequency: number, range: number) => `${frequency} Hz ±${number(range)}`,
    sign: 'positive: worse',
  },
  age: {
    asExpected: 'as expected',
    worse: (frequencies: readonly number[]) => `worse ${kilohertz(frequencies)}`,
    better: (frequencies: readonly number[]) => `better ${kilohertz(frequencies)}`,
    unknown: (frequencies: readonly number[]) => `cannot tell ${kilohertz(frequencies)}`,
    outside: (age: number) => `no norm at ${age} years`,
    at: (frequency: number, from: number, to: number, verdict: keyof typeof ageVerdicts) =>
      `${frequency} Hz expected ${number(Math.round(from))} to ${number(Math.round(to))}: ${ageVerdicts[verdict]}`,
    formula: 'bone conduction against the 10th to 90th percentile of the age group',
  },
  asymmetry: {
    met: (ear: Ear | undefined) => (ear === undefined ? 'asymmetric' : `${ears[ear].toLowerCase()} ear poorer`),
    notMet: 'not asymmetric',
    notEvaluable: 'not evaluable',
    rule: (id: AsymmetryRuleId) => asymmetryRuleNames[id],
    outcomes: asymmetryOutcomes,
    count: (met: number, all: number) => `${met} of ${all} rules met`,
    missing: (frequencies: readonly number[]) => `missing ${kilohertz(frequencies)}`,
    wordScoresMissing: 'word scores missing',
  },
  statusWords,
  statusShort,
  findings: {
    heading: 'To look at',
    none: 'No masking or plausibility finding.',
    noTest: 'Findings need a test without a device.',
    severity: { urgent: 'Urgent', check: 'Check', remark: 'Remark' } satisfies Record<Severity, string>,
    alsoAt: (frequencies: readonly number[]) => `Also at ${kilohertz(frequencies)}.`,
    show: (place: string) => `Show on the chart: ${place}`,
    place: (frequency: number) => kilohertz([frequency]),
    whatToDo: 'What to do',
    why: 'Why',
    sentences: findingSentences,
  },
  overlays: {
    legend: 'Lay over the chart',
    age: 'Age norm',
    speech: 'Speech',
    forecast: 'Forecast',
    ageLegend: (edition: string, sex: string, age: number) =>
      `Air conduction of 80 % of otologically normal people (${sex}, ${age} years) and their median, ISO 7029:${edition}`,
    sex: { female: 'women', male: 'men' },
    speechLegend: 'Where speech of 65 dB SPL lies: the 30 dB from its weakest to its loudest parts, ANSI S3.5-1997',
    heardLegend: (ear: Ear, condition: string, share: number, upperBound: boolean) =>
      `Heard by the ${ears[ear].toLowerCase()} ear, ${condition}: ${upperBound ? 'at most ' : ''}${percent(share)} of the information`,
    forecastLegend: (ear: Ear) =>
      `Forecast of aided thresholds, ${ears[ear].toLowerCase()} ear: 80 % interval and middle`,
    refused: {
      'age-not-stated': 'The age is not in the case header.',
      'sex-not-stated': 'The norm needs the sex, and the case header does not state it.',
      'age-outside': (age: number, youngest: number, oldest: number) =>
        `ISO 7029:2017 holds from ${youngest} to ${oldest} years; the case is of ${age} years.`,
      'no-thresholds': 'There is no threshold to hold speech against.',
      'no-forecast': 'There is no forecast: the plan or a test is incomplete.',
    },
  },
}

function signed(value: number): string {
  if (!Number.isFinite(value)) return value > 0 ? '∞' : '−∞'
  return value > 0 ? `+${number(value)}` : number(value)
}
