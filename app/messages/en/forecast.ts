const whole = (value: number): string => String(Math.round(value)).replace('-', '−').replace(/^−0$/, '0')
const one = (value: number): string =>
  value
    .toFixed(1)
    .replace('-', '−')
    .replace(/^−0\.0$/, '0.0')
const percent = (part: number): string => `${Math.round(part * 100)} %`
const spoken = (value: number): string => one(value).replace(/\.0$/, '')

/** The forecast: numbers, where they come from and how sure they are. */
export const forecast = {
  title: 'Forecast',
  putOnScreen: 'Put on the main screen',
  number: whole,
  decimal: one,
  range: (low: number, high: number) => `${whole(low)} to ${whole(high)}`,
  rangeWithUnit: (low: number, high: number, unit: string) => `${spoken(low)} to ${spoken(high)} ${unit}`,
  valueWithUnit: (value: number, unit: string) => `${spoken(value)} ${unit}`,
  atLeast: (value: number) => `≥ ${whole(value)}`,
  atMost: (value: number) => `≤ ${whole(value)}`,
  atLeastSpoken: (value: number) => `at least ${whole(value)}`,
  atMostSpoken: (value: number) => `at most ${whole(value)}`,
  intervalSpoken: (low: number, high: number) => `80 percent interval ${whole(low)} to ${whole(high)}`,
  hertz: (frequency: number) => (frequency >= 1000 ? `${frequency / 1000} kHz` : `${frequency} Hz`),
  none: '–',
  whyButton: (what: string, value: string) => `${what}: ${value}. Why?`,
  intervalNote: '80 % interval under each number',
  weak: 'Weak evidence',
  weakNote:
    'The gains and maximum outputs behind these numbers are from memory and have not been held against a publication. Open a number to see which.',
  forOption: (deviceClass: string, site: string) => `${deviceClass}, ${site.toLowerCase()}`,
  quantity: {
    aidedThreshold: 'Expected aided threshold',
    effectiveGain: 'Effective gain',
    residualGap: 'Residual air-bone gap',
    functionalGain: 'Functional gain',
    headroom: 'Headroom',
    wordScore: 'Word score',
  },
  quantityShort: {
    aidedThreshold: 'Aided, dB HL',
    effectiveGain: 'Eff. gain, dB',
    residualGap: 'Res. gap, dB',
    functionalGain: 'Func. gain, dB',
    headroom: 'Headroom, dB',
    wordScore: 'Words',
  },
  quantityHint: {
    aidedThreshold: 'sound field, device on',
    effectiveGain: 'bone conduction minus aided',
    residualGap: 'aided minus bone conduction',
    functionalGain: 'unaided minus aided',
    headroom: 'maximum output minus bone conduction',
    wordScore: 'monosyllables at 65 dB SPL in quiet',
  },
  unit: { threshold: 'dB HL', gain: 'dB', score: '%' },
  fourTone: 'mean of 0.5, 1, 2 and 4 kHz',
  headlineNote: 'Means of 0.5, 1, 2 and 4 kHz. 80 % interval under each number.',
  notCapped: 'no loud unaided list caps it',
  couplingsAlike: 'no published difference between couplings at this bone conduction',
  variant: { only: '', 'without-coupler': 'without coupler', 'with-coupler': 'with coupler' },
  output: {
    incus: 'on the incus',
    window: 'on a window',
    implant: 'implant',
    'standard-processor': 'standard processor',
    'power-processor': 'power processor',
  } as Readonly<Record<string, string>>,
  frequency: 'Frequency',
  byFrequency: 'Forecast by frequency',
  gridHelp: 'Arrow keys move between the numbers, Enter opens the reason.',
  verdict: {
    inside: 'Inside the fitting range',
    depends: 'Fitting range depends on the device’s output',
    outside: 'Outside the fitting range',
  },
  verdictSign: { inside: 'Headroom enough', depends: 'Headroom depends', outside: 'Headroom too small' },
  verdictShort: { inside: 'inside', depends: 'depends', outside: 'outside' },
  verdictHint: 'Inside means at least 30 dB of headroom from 0.5 to 4 kHz.',
  absence: {
    'no-evidence-at-frequency': 'No group evidence at this frequency',
    'bone-not-tested': 'Bone conduction not tested',
    'bone-could-not-be-tested': 'Bone conduction could not be tested',
    'beyond-maximum-output': 'Bone conduction is beyond the maximum output',
    'no-unaided-threshold': 'No unaided threshold to compare with',
    'a-frequency-is-missing': 'One of the four frequencies is missing',
    'no-published-word-score': 'No published word score for this class and site',
    undetermined: 'No response on both sides: nothing follows',
  },
  noForecast: 'No forecast',
  refusal: {
    'no-plan': () => 'There is no plan. Choose ear, device class and coupling site.',
    'no-device-class': () => 'The plan names no device class.',
    'no-coupling-site': () => 'The plan names no coupling site.',
    'no-profile': () => 'There is no evidence on this board for this class at this site.',
    'ossicle-missing': (ossicle: string) =>
      `The plan says that the ${ossicle} is missing, so nothing can be coupled to it. Change the site or the finding.`,
    'no-current-test': (ear: string) =>
      `The ${ear} ear has no current unaided hearing test. Enter one, or reinstate the right one.`,
    'no-bone-thresholds': (ear: string) =>
      `The current test of the ${ear} ear has no bone-conduction threshold between 500 and 4000 Hz.`,
    'beyond-working-range': (bone: number, most: number) =>
      `Mean bone conduction of ${whole(bone)} dB HL is at or beyond the maximum output of this class (${whole(most)} dB HL at best). The ear would hear nothing usable through it.`,
  },
  refusalShort: {
    'ossicle-missing': (ossicle: string) => `The plan says: ${ossicle} missing`,
    'beyond-working-range': (most: number) => `Bone conduction at or beyond ${whole(most)} dB HL, the maximum output`,
  },
  options: 'Options side by side',
  optionsHint: 'The same ear and the same tests with every class and site.',
  optionsOverlap:
    'Intervals that overlap cannot be told apart for a single ear. A better middle value is not a recommendation.',
  option: 'Option',
  planned: 'Planned',
  plan: 'Plan',
  choose: 'Plan this',
  chooseNamed: (option: string) => `Plan this: ${option}`,
  axisNote: (low: number, high: number) => `bars: ${low} to ${high} dB HL, better to the left`,
  concern: 'Not as in the evidence',
  concerns: {
    'chain-not-mobile': 'Gains on the incus come from ears with a mobile chain; the plan says otherwise.',
    'stapes-not-mobile': 'Gains in the middle ear come from ears with a mobile stapes; the plan says otherwise.',
  },
  candidacy: 'Candidacy',
  why: {
    title: (what: string) => `Why: ${what}`,
    interval: (low: string, high: string) => `80 % interval ${low} to ${high}`,
    noInterval: 'a bound without an interval: one side of it was never measured',
    formulaTitle: 'How it was computed',
    formula: {
      'aided-threshold':
        'Bone conduction − effective gain + loss, not better than 15 dB HL. SD = √(SD gain² + SD bone² + SD loss²).',
      'effective-gain': 'Group mean of effective gain − loss; limited where the aided threshold meets 15 dB HL.',
      'residual-gap':
        'Loss − group mean of effective gain: what stays between bone conduction and the aided threshold.',
      'functional-gain': 'Unaided threshold − expected aided threshold.',
      headroom: 'Maximum output − loss − bone conduction, for both ends of the working range.',
      'mean-of-four':
        'Mean over 0.5, 1, 2 and 4 kHz. Its spread is taken as a whole, because an ear that couples badly does so at every frequency.',
      'word-score':
        'Logistic curve through the published half-right level; the spread of the aided mean moves the ear along the curve, list and assumed slope widen the interval.',
    },
    inputsTitle: 'What went in',
    input: {
      'bone-threshold': 'Bone conduction',
      'bone-mean': 'Mean bone conduction',
      'unaided-sound-field': 'Unaided, sound field',
      'unaided-air': 'Unaided, air conduction',
      'published-gain': 'Group mean of effective gain',
      loss: 'Loss assumed',
      'mean-loss': 'Mean loss assumed',
      'maximum-output': 'Maximum output of the class',
      'half-right-at': 'Half of the words right at',
      slope: 'Slope at half',
      'best-unaided-score': 'Best unaided score',
      'list-length': 'Words in the list',
      'aided-thresholds': 'Expected aided threshold',
      'effective-gains': 'Effective gain',
      'residual-gaps': 'Residual gap',
      'functional-gains': 'Functional gain',
      'spread-of-mean': 'SD of such a mean',
    },
    inputName: 'Quantity',
    inputValue: 'Value',
    inputSd: 'SD',
    inputN: 'Ears',
    notKnown: 'not known',
    atFrequency: (name: string, frequency: string) => `${name}, ${frequency}`,
    noResponse: (value: string) => `no response at ${value}`,
    unit: { 'dB HL': 'dB HL', dB: 'dB', '%': '%', '%/dB': '% per dB', items: 'words' },
    sharesTitle: 'What makes it unsure',
    cause: {
      'between-patients': 'Spread between patients',
      'bone-test': 'Error of the bone-conduction test',
      'unaided-test': 'Error of the unaided test',
      scenario: 'What may change in the ear',
      'list-length': 'Chance within the word list',
      slope: 'Assumed slope of the curve',
    },
    share: (part: number, sd: number, unit: string) => `${percent(part)} of the variance, SD ${one(sd)} ${unit}`,
    remarksTitle: 'Mind',
    remark: {
      'no-better-than-floor': 'Computed better than 15 dB HL; held at 15.',
      'bone-no-response':
        'Bone conduction gave no response at the limit: the true threshold is worse, so this is a bound.',
      'unaided-no-response': 'The unaided threshold gave no response at the limit: this is a bound.',
      'air-for-sound-field': 'No unaided sound-field test: air conduction stands in for it.',
      'unmasked-bone': 'Bone conduction is unmasked: it may belong to the other ear.',
      'slope-assumed': 'The slope is an assumption: 4 % per dB, between 3 and 5.',
      'couplings-alike':
        'Published: no difference between couplings up to about 48 dB mean bone conduction (the same abstract). A difference shown here comes from the assumed curve.',
      'far-from-half':
        'More than 20 dB better than the published half-right level: the curve is held there, because nothing is published near its top.',
      'not-capped':
        'No unaided word list was loud enough to show the best score of this ear, so nothing caps the forecast.',
      capped: 'The best unaided score of this ear caps the forecast.',
      'list-length-assumed': 'No unaided word list of this ear: 20 words are taken.',
    },
    sourcesTitle: 'Sources',
    status: {
      confirmed: 'Confirmed',
      'approximate, from memory': 'From memory',
      assumption: 'Assumption',
    },
    readAt: (where: string) => `read at ${where}`,
  },
  cautions: [
    'An estimate from group data and this ear’s own bone conduction, for licensed professionals; not a medical device.',
    'The labelling of the device decides, with local codes and the treating team.',
    'Check candidacy limits and conditions for magnetic resonance in the labelling.',
  ],
  cautionsTitle: 'Cautions',
  cautionShort:
    'An estimate from group data. The labelling of the device decides: check candidacy and magnetic resonance.',
  weakShort: 'Gains and maximum outputs are from memory, not held against a publication.',
  bandLabel: 'forecast, 80 %',
  chartLabel: (ear: string) =>
    `Unaided audiogram of the ${ear} ear with the expected aided thresholds as a band; the table below has the numbers`,
  wordScoreBrief: 'monosyllables, 65 dB SPL',
}
