import type { EarChange } from '@/lib/devices/ear-changes.ts'

const signed = (value: number): string => {
  const rounded = Math.round(value)
  return rounded > 0 ? `+${rounded}` : String(rounded).replace('-', '−')
}
const signedHundredth = (value: number): string =>
  Math.abs(value) < 0.005 ? '0.00' : `${value > 0 ? '+' : '−'}${Math.abs(value).toFixed(2)}`
const size = (value: number): string => String(Math.round(Math.abs(value)))
const range = (low: number, high: number): string =>
  `${String(Math.round(low)).replace('-', 'minus ')} to ${String(Math.round(high)).replace('-', 'minus ')}`
interface Limits {
  readonly low: number
  readonly high: number
}
const lowered = (name: string): string => name.charAt(0).toLowerCase() + name.slice(1)
const listed = (parts: readonly string[]): string =>
  parts.length < 2 ? parts.join('') : `${parts.slice(0, -1).join(', ')} and ${parts.at(-1)}`
const times = (value: number): string => (value < 10 ? value.toFixed(1).replace('.0', '') : String(Math.round(value)))

/** "What if": what may become of the ear, and what that does to the forecast. */
export const whatIf = {
  title: 'What if …',
  hint: 'Move a slider or type a value: table, chart and sentence follow. Nothing is written until it is frozen; s freezes it and puts it on the main screen.',
  reset: 'Reset',
  asFound: 'All as found: no scenario is set.',
  under: 'With this scenario',
  underNote: 'The numbers here and in all tables are those with the scenario below.',
  slider: {
    fixation: 'Fixation comes back',
    fixationAt: 'Where the fixation comes back',
    contact: 'Partial contact',
    malleusIncus: 'Joint of malleus and incus slack',
    incusStapes: 'Joint of incus and stapes slack',
    apart: 'Joint of incus and stapes apart',
    years: 'Inner ear ages',
    actuator: 'What drives',
  },
  sliderHint: {
    fixation: '3 to 10 fibrous tissue, about 100 a bony bar, 1000 extensive new bone',
    contact: 'taken at all frequencies alike; half of it is its SD',
    joint: 'what is left of its stiffness; 100 % is normal',
    years: 'as the median of age and sex does',
  },
  place: {
    none: 'nowhere',
    malleus: 'malleus',
    incus: 'incus',
    'malleus-and-incus': 'malleus and incus (attic)',
    stapes: 'stapes',
  },
  actuator: { 'floating-mass': 'floating mass', 'fixed-frame': 'fixed frame' },
  unit: { times: '× normal', db: 'dB', percent: '% left', years: 'years' },
  spokenTimes: (value: number) => `${times(value)} times normal`,
  spokenDb: (value: number) => `${value} decibels`,
  spokenPercent: (value: number) => `${value} percent left`,
  spokenYears: (value: number) => (value === 1 ? '1 year' : `${value} years`),
  timesText: times,
  percentText: (value: number) => (value < 10 ? value.toFixed(1).replace('.0', '') : String(Math.round(value))),
  typed: (name: string) => `${name}, value`,
  answer: 'Before the change and with it',
  before: 'Before',
  after: 'With it',
  change: 'Change',
  changeNote: 'Change of the expected aided threshold, dB; plus is worse. 80 % interval of the change under it.',
  mean: 'Mean 0.5–4 kHz',
  signed,
  signedHundredth,
  to: (low: string, high: string) => `${low} to ${high}`,
  noChange: 'no number',
  lowConfidence: 'low confidence',
  words: 'Words',
  speech: { 'quiet-55': 'SII, quiet 55', 'quiet-65': 'SII, quiet 65', 'noise-65': 'SII, noise' },
  readAloud: 'To read aloud',
  /** the sentence for the room, part by part */
  spoken: {
    fixation: (place: string, value: number) => `the ${place} fixes again, ${times(value)} times as stiff as normal`,
    place: { malleus: 'malleus', incus: 'incus', 'malleus-and-incus': 'malleus and incus', stapes: 'stapes' },
    contact: (db: number) => `the contact costs ${db} decibels`,
    malleusIncus: (left: number) => `the joint of malleus and incus keeps ${left} percent of its stiffness`,
    incusStapes: (left: number) => `the joint of incus and stapes keeps ${left} percent of its stiffness`,
    apart: 'incus and stapes come apart',
    years: (years: number) => `the inner ear ages by ${years === 1 ? 'one year' : `${years} years`}`,
    option: (deviceClass: string, site: string | undefined) =>
      site === undefined ? lowered(deviceClass) : `${lowered(deviceClass)} at the ${lowered(site)}`,
    condition: (parts: readonly string[]) => `If ${listed(parts)}, `,
    mean: (option: string, value: number, { low, high }: Limits) =>
      Math.round(value) === 0
        ? `our estimate for the ${option} is no change of the mean aided threshold, with an 80 percent interval from ${range(low, high)} decibels. `
        : `our estimate for the ${option} is a mean aided threshold ${size(value)} decibels ${value > 0 ? 'worse' : 'better'}, with an 80 percent interval from ${range(low, high)} decibels. `,
    noMean: (option: string) =>
      `our estimate for the ${option} has no mean of the change, because a number is missing. `,
    most: (db: number, frequency: string) => `The largest change is ${size(db)} decibels, at ${frequency}. `,
    words: (points: number, { low, high }: Limits) =>
      Math.round(points) === 0
        ? `The word score is not expected to change (${range(low, high)} percentage points). `
        : `The word score is expected to ${points < 0 ? 'fall' : 'rise'} by ${size(points)} percentage points (interval ${points < 0 ? range(-high, -low) : range(low, high)}). `,
    lowConfidence: (frequencies: readonly string[]) => `What is said at ${listed(frequencies)} is of low confidence. `,
    noNumber: (frequencies: readonly string[]) =>
      `At ${listed(frequencies)} the model is of low confidence and there is no number. `,
    close: 'This is an estimate from group data and a model of the middle ear, not a promise for this patient.',
    refused: (reason: string) => `there is no estimate. ${reason}`,
  },
  loss: {
    title: 'What the changes take from the drive',
    hint: 'Against the normal ear driven at the same site. Changes only: absolute output is known after the first fitting of this ear, not before.',
    best: 'Best estimate',
    sd: 'SD between ears',
    sets: 'Over three networks',
    oneSet: 'one network only',
    nothingArrives: 'nothing of the drive arrives',
    skull: 'Drives the skull: nothing in the chain costs it anything.',
  },
  freeze: {
    title: 'Freeze this scenario',
    hint: 'Writes question, numbers and intervals into the record for good. A later one can supersede it.',
    name: 'Title',
    question: 'Answers the question',
    noQuestion: 'none',
    supersedes: 'Supersedes',
    nothing: 'nothing',
    submit: 'Freeze',
    andShow: 'Freeze and put on the main screen',
    untitled: 'A frozen scenario needs a title.',
    done: 'The scenario is frozen.',
    cannot: (reason: string) => `It cannot be frozen: ${reason}`,
  },
  frozen: {
    title: 'Frozen scenarios',
    open: 'Open in the sliders',
    openNamed: (title: string) => `Open in the sliders: ${title}`,
    show: 'Put on the main screen',
    superseded: 'Superseded',
    answers: (question: string) => `Answers: ${question}`,
    change: (value: number) => `${signed(value)} dB on average`,
  },
  found: {
    title: 'How this ear differs, for the model',
    hint: 'Without an entry the ear is taken to couple as the ears of the evidence did.',
    add: 'Add a finding',
    choose: 'Choose …',
    remove: (finding: string) => `Remove: ${finding}`,
    suggest: (findings: readonly string[]) => `Take over from the ossicles: ${findings.join('; ')}`,
  },
  finding: {
    'ligament-stiffened': (place: string, value: number) => `Ligament of ${place} ${times(value)} times as stiff`,
    'ligament-fixed': (place: string) => `Ligament of ${place}: nothing gives way`,
    ligament: {
      malleus: 'malleus',
      incus: 'incus',
      'malleus-and-incus': 'malleus and incus',
      annular: 'stapes (annular)',
    },
    'incus-bridge': (value: number) => `Bridge from the attic wall to the incus, ${value} N/m`,
    'joint-slack': (joint: string, left: number) => `Joint of ${joint} slack, ${left} % left`,
    'joint-ankylosed': (joint: string) => `Joint of ${joint} grown together`,
    joint: { 'malleus-incus': 'malleus and incus', 'incus-stapes': 'incus and stapes' },
    'incus-stapes-apart': 'Incus and stapes apart',
    'incus-missing': 'Incus missing',
    'stapes-superstructure-missing': 'Stapes superstructure missing',
    'cavity-open': 'Open mastoid cavity',
    'eardrum-absent': 'No eardrum',
    site: {
      malleus: 'malleus',
      'incus-body': 'body of the incus',
      'incus-long-process': 'long process of the incus',
      'stapes-head': 'head of the stapes',
      'oval-window': 'oval window',
      'round-window': 'round window',
    },
    'mass-added': (site: string, mg: number) => `${mg} mg resting on the ${site}`,
    'contact-loss': (db: number, sd: number) => `Contact costs ${db} dB (SD ${sd})`,
    'incus-axis-compliant': 'Axis of the incus yields (exploratory)',
    'third-window': 'Third window (exploratory)',
  } satisfies Record<EarChange['kind'], unknown> & Record<'ligament' | 'joint' | 'site', unknown>,
}
