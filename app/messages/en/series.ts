import type { FilterField } from '@/lib/interchange/series-filter.ts'
import type { MeanRoute } from '@/lib/outcomes/mean-audiogram.ts'
import type { ChainState, SeriesOccasion } from '@/lib/outcomes/series-case.ts'
import type { ResultAt } from '@/lib/outcomes/series-result.ts'
import type { GainMeasure } from '@/lib/outcomes/site-comparison.ts'

const fields: Readonly<Record<FilterField, string>> = {
  class: 'Device class',
  site: 'Coupling site',
  pathology: 'Pathology',
  chain: 'Ossicular chain',
  ear: 'Ear',
  from: 'Operated from',
  to: 'Operated until',
  tag: 'Tag',
  at: 'Result at',
  first: 'First site',
  second: 'Second site',
  measure: 'Measure',
}
const chain: Readonly<Record<ChainState, string>> = {
  mobile: 'Mobile',
  fixed: 'Fixed or stiff',
  interrupted: 'Eroded or missing',
  'not-known': 'Not known',
}
const at: Readonly<Record<ResultAt, string>> = {
  latest: 'Latest aided test',
  'first-fitting': 'First fitting',
  '1-month': '1 month',
  '3-months': '3 months',
  '6-months': '6 months',
  '12-months': '12 months',
  yearly: 'Latest yearly visit',
}
const routes: Readonly<Record<MeanRoute, string>> = {
  'air-before': 'Air, before',
  'bone-before': 'Bone, before',
  'aided-after': 'Aided, after',
  'bone-after': 'Bone, after',
}
const measures: Readonly<Record<GainMeasure, string>> = {
  'effective-gain': 'Effective gain (bone conduction less aided)',
  'functional-gain': 'Functional gain (unaided before less aided)',
}
const occasions: Readonly<Record<SeriesOccasion, string>> = {
  before: 'Before',
  'first-fitting': 'First fitting',
  '1-month': '1 month',
  '3-months': '3 months',
  '6-months': '6 months',
  '12-months': '12 months',
  yearly: 'Yearly',
  unscheduled: 'Unscheduled',
}

/** So many names, and how many more. */
const mostNamed = 12
const namedFew = (labels: readonly string[]) =>
  labels.slice(0, mostNamed).join(', ') + (labels.length > mostNamed ? ` and ${labels.length - mostNamed} more` : '')

const db = (value: number) => `${signed(value, 1)} dB`
const signed = (value: number, digits: number) => value.toFixed(digits).replace('-', '−')
const ears = (n: number) => (n === 1 ? '1 ear' : `${n} ears`)
const percent = (share: number) => `${Math.round(100 * share)} %`

/** The page of a series. */
export const series = {
  pageTitle: 'Series',
  lead: 'Outcomes of the cases that you may see, one ear a patient.',
  loading: 'Adding up the series',
  filters: 'Which ears',
  fields,
  all: 'All',
  chain,
  at,
  routes,
  measures,
  occasions,
  yearly: (year: number) => `${year} years`,
  clear: 'Show all ears',
  notForYou: 'The series is for those who run cases',
  notForYouHint:
    'Outcomes are added up over cases in which you are moderator or in the operating team. You are in none here.',
  badFilter: 'The address asks for something that this page does not have',
  ears,
  db,
  percent,
  number: (value: number) => signed(value, 1),
  whole: (value: number) => signed(value, 0),
  none: '–',
  count: (n: number, withResult: number) =>
    `${ears(n)} in this series, ${withResult} with a result at the chosen time.`,
  leftOut: (facts: { empty: number; filteredOut: number; secondOfPatient: number }) =>
    [
      facts.filteredOut > 0 ? `${facts.filteredOut} not selected` : '',
      facts.secondOfPatient > 0 ? `${facts.secondOfPatient} of a patient who is in it already` : '',
      facts.empty > 0 ? `${facts.empty} without an ear or a plan` : '',
    ]
      .filter((part) => part !== '')
      .join(', '),
  unreadable: (labels: readonly string[]) =>
    `${labels.length === 1 ? '1 case' : `${labels.length} cases`} could not be read: ${namedFew(labels)}. What is stored of it is damaged or of another version. It is in no number here; open the case and store any change, and it is read anew.`,
  addTag: 'Another tag',
  add: 'Add',
  dropTag: (tag: string) => `Take away the tag ${tag}`,
  allTags: 'Ears with all of these tags',
  leftOutLead: (parts: string) => `Left out: ${parts}.`,
  few: (n: number) => `Fewer than five ears (${n}): a mean of so few says little, and no interval is shown.`,
  empty: 'No ear fits these filters',
  emptyHint: 'Take one of the filters away. An ear is here once its case has a plan.',
  caution:
    'Group data of your own cases. They were chosen by ear and surgeon, not by lot: a difference between groups is no proof of a cause. The treating team decides.',
  table: 'Table',
  saveSvg: 'Save as SVG',
  savePng: 'Save as PNG',
  saveFailed: 'This browser could not draw the picture. Save it as SVG instead.',
  interval: '95 % interval',
  n: 'n',
  missing: 'Missing',
  noResponse: 'No response',
  mean: 'Mean',
  sd: 'SD',
  frequency: 'Frequency',
  kiloHertz: (hz: number) => `${hz / 1000}`,
  kiloHertzUnit: (hz: number) => `${hz / 1000} kHz`,
  limits: (low: number, high: number) => `${signed(low, 1)} to ${signed(high, 1)}`,
  axis: {
    frequency: 'Frequency, kHz',
    level: 'dB HL',
    difference: 'Difference, dB',
    average: 'Pure-tone average, dB HL',
    averageChange: 'Change of the average, dB (a fall is better)',
    words: 'Words, %',
    wordsChange: 'Words better by, %',
  },
  audiogram: {
    title: 'Mean audiogram before and after',
    note: 'Bars are 95 % intervals of the mean (Student). No response is counted, not averaged: where there is any, the true mean is worse.',
    route: 'Curve',
  },
  bins: {
    title: 'Reporting bins',
    note: 'Aided threshold less bone conduction, mean of 0.5, 1, 2 and 3 kHz, in the bins of AAO-HNS 1995 for the air-bone gap. A device closes no gap: this is what takes its place. Limits: Wilson.',
    bin: 'Bin, dB',
    share: 'Share',
    bins: { '<= 10': '0 to 10', '> 10 to 20': 'over 10 to 20', '> 20 to 30': 'over 20 to 30', '> 30': 'over 30' },
    of: (count: number, total: number) => `${count} of ${total}`,
    undecided: (n: number) => `${n} undecided: no response leaves more than one bin possible.`,
    missing: (n: number) => `${ears(n)} without both tests.`,
    inner: 'Bone conduction worse by more than 10 dB (1, 2 and 4 kHz)',
  },
  scatter: {
    title: 'Scattergram of words and average',
    note: 'After Gurgel 2012: each cell is 10 dB by 10 %, the numbers in it are ears. Better hearing is on the left, more words are above. Width of the cells, and that a change is laid out like the state before, are from memory, not confirmed. Average of 0.5, 1, 2 and 3 kHz; after: aided.',
    before: 'Before',
    change: 'Change',
    which: 'Show',
    cell: 'Average, dB',
    wordsCell: 'Words, %',
    between: (above: number, to: number) => `over ${signed(above, 0)} to ${signed(to, 0)}`,
    upTo: (to: number) => `to ${signed(to, 0)}`,
    over: (above: number) => `over ${signed(above, 0)}`,
    beyond: 'over',
    missing: (n: number) => `${ears(n)} without an average or a word score.`,
  },
  compare: {
    title: 'Two coupling sites',
    note: 'Difference of the means at each frequency (Welch). The intervals hold for all compared frequencies together (Bonferroni), the probabilities are adjusted for their number (Holm 1979).',
    nothing: 'Two sites with results are needed to compare.',
    difference: 'Difference',
    adjusted: 'p, adjusted',
    tooFew: 'fewer than 5 ears',
    p: (value: number) => (value < 0.001 ? '< 0.001' : value.toFixed(3)),
    groups: (first: string, n: number, second: string, m: number) => `${first}: ${ears(n)}. ${second}: ${ears(m)}.`,
    same: (frequencies: string) => `No difference can be told from chance at ${frequencies}.`,
    more: (site: string, frequencies: string) =>
      `${site} gives more gain at ${frequencies}, beyond chance after adjustment.`,
    notCompared: (frequencies: string) => `Not compared, with fewer than five ears on a side: ${frequencies}.`,
    boneHint: 'Bone conduction is rarely measured at 6 and 8 kHz: functional gain has those frequencies.',
  },
  course: {
    title: 'Course over visits',
    note: 'Means of 0.5, 1, 2 and 4 kHz with 95 % intervals. The ears of one visit are not those of the next.',
    visit: 'Visit',
    earsWith: 'Ears with this visit',
    threshold: 'Threshold, dB HL',
    gain: 'Effective gain, dB',
  },
  calibration: {
    title: 'Sealed forecasts against results',
    note: 'Aided threshold, mean of 0.5, 1, 2 and 4 kHz, against the forecast that was sealed before the operation. Where forecasts keep what they promise, each tenth holds as many results (the dashed line). Sealed forecasts stand on published evidence alone, without this series.',
    tenth: 'Tenth of the forecast',
    results: 'Results',
    coverage50: 'Inside the 50 % interval',
    coverage80: 'Inside the 80 % interval',
    bias: 'Measured less forecast',
    score: 'Score of the forecasts',
    baseline: 'Score without a model',
    gain: 'Better by',
    measure: 'Measure',
    value: 'Value',
    missing: (notSealed: number, notScored: number) =>
      `${notSealed} without a sealed forecast of what was done, ${notScored} sealed without a result.`,
    better: 'The forecasts say more than the series alone would.',
    worse: 'The series alone would have said more than the forecasts.',
    cannotTell: 'Whether the forecasts say more than the series alone cannot be told yet.',
    scoreHint:
      'Score: continuous ranked probability score, smaller is better. Without a model: mean and spread of all other results.',
    nothing: 'No sealed forecast has a result here yet.',
  },
  size: {
    title: 'Size of a study',
    note: 'Two groups of equal size, two-sided at 0.05, from the spread between the ears of this series (non-central t).',
    difference: 'Difference to find, dB',
    frequency: 'At',
    power: 'Power, %',
    answer: (n: number, facts: { db: number; at: string; power: number; sd: number }) =>
      `${n} ears in each group to see ${facts.db} dB at ${facts.at} with ${facts.power} % power, given a spread of ${signed(facts.sd, 1)} dB.`,
    tooFew: 'The spread cannot be told from fewer than five ears at this frequency.',
    tooMany: 'More than a million ears would be needed. Ask for a larger difference.',
    fault: 'Give a difference from 0.1 to 60 dB and a power from 50 to 99 %.',
  },
}
