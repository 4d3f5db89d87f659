import type { SpeechTest } from '@/lib/board/records/speech-test.ts'
import type { RolloverCriterion } from '@/lib/speech/rollover.ts'
import { handout } from './handout.ts'

const decibels = (value: number): string => `${Math.round(value * 10) / 10}`.replace('-', '\u2212')
const percent = (proportion: number): string => `${Math.round(100 * proportion)} %`

const material: Record<SpeechTest['material'], string> = handout.speechMaterial

const criteria: Record<RolloverCriterion['id'], string> = {
  'pb-jerger-1971': 'PB words, Jerger and Jerger 1971',
  'nu6-bess-1979': 'NU-6, Bess et al. 1979',
  'nu6-meyer-1985': 'NU-6, Meyer and Mishler 1985',
}

/** Word scores in the hearing pane: entry, list, what a score says. */
export const speech = {
  heading: 'Speech tests',
  none: 'No speech test has been entered.',
  enter: 'Enter a score',
  close: 'Close',
  fields: {
    ear: 'Ear',
    ears: { right: 'Right', left: 'Left', both: 'Both' },
    condition: 'Condition',
    performedOn: 'Date',
    material: 'Material',
    materials: material,
    listName: 'List',
    items: 'Items',
    right: 'Right, or %',
    speechLevel: 'Speech, dB SPL',
    noiseLevel: 'Noise, dB SPL',
    quiet: 'quiet',
    note: 'Note',
  },
  submit: 'Enter',
  keys: 'Enter takes the score from any field; the next one begins with the same setting.',
  willReplace: (count: number) =>
    count === 1
      ? 'The current score of this setting will be superseded.'
      : `The ${count} current scores of this setting will be superseded.`,
  replacedBecause: (calendarDay: string) => `Newer score of ${calendarDay}`,
  entered: (right: number, items: number) => `Entered: ${right} of ${items} right.`,
  faults: {
    missing: 'Give this number.',
    'not-a-whole-number': 'A whole number, please.',
    'not-a-number': 'This is not a number.',
    'not-a-day': 'Give the date of the test.',
    'future-day': 'This day has not come yet.',
    'out-of-range': (low: number, high: number) => `From ${decibels(low)} to ${decibels(high)}.`,
    'more-than-items': (items: number) => `The list has ${items} items only.`,
    'percent-out-of-range': 'From 0 to 100 %.',
    'percent-between-items': (below: number, above: number, items: number) =>
      `Lies between ${below} and ${above} of ${items}. Give the count.`,
    'too-long': (length: number, most: number) => `${length} characters; ${most} are stored.`,
  },
  score: (right: number, items: number) => `${right} of ${items}`,
  percent,
  interval: (low: number, high: number) => `95 % interval ${percent(low)} to ${percent(high)}`,
  noInterval: 'no interval: the phonemes of a word depend on one another',
  sentencesRemark: 'holds if whole sentences were scored, not their words',
  inQuiet: (dbSpl: number) => `${decibels(dbSpl)} dB SPL in quiet`,
  inNoise: (dbSpl: number, noise: number) => `${decibels(dbSpl)} dB SPL in noise of ${decibels(noise)} dB SPL`,
  change: {
    higher: (score: string, day: string) => `Better than ${score} on ${day}`,
    lower: (score: string, day: string) => `Worse than ${score} on ${day}`,
    'no-significant-difference': (score: string, day: string) => `Cannot be told apart from ${score} on ${day}`,
  },
  benefit: {
    higher: (score: string) => `Better with the device than without (${score})`,
    lower: (score: string) => `Worse with the device than without (${score})`,
    'no-significant-difference': (score: string) => `With the device not to be told apart from without (${score})`,
  },
  borderline: 'borderline: one word would turn it',
  critical: (lowest: number, highest: number, items: number) =>
    `Critical range: ${lowest} to ${highest} of ${items} right cannot be told apart (95 %).`,
  expected: {
    'as-expected': (score: string) => `As the audiogram predicts (${score})`,
    below: (score: string) => `Below what the audiogram predicts (${score})`,
    above: (score: string) => `Above what the audiogram predicts (${score})`,
    'cannot-tell': (score: string) => `Whether below the prediction cannot be told (at most ${score})`,
  },
  expectedRange: (lowest: number, highest: number, items: number) =>
    `${lowest} to ${highest} of ${items} right are expected by chance alone (95 %).`,
  expectedIndex: (index: number, upperBound: boolean, day: string) =>
    `Speech intelligibility index ${upperBound ? 'at most ' : ''}${index.toFixed(2)} from the audiogram of ${day}, importance of NU-6 words.`,
  expectedOther: 'The words of this list are taken as NU-6 words; another recording or language scores differently.',
  notExpected: {
    'both-ears': 'No prediction: both ears together.',
    material: 'No prediction: only monosyllables have a transfer function here.',
    'no-audiogram': 'No prediction: there is no audiogram of this ear in this condition.',
    level: 'No prediction: the level lies outside 0 to 120 dB SPL.',
  },
  rollover: {
    title: (index: number) => `Rollover index ${index.toFixed(2)}`,
    points: (best: string, bestLevel: number, poorest: string, poorestLevel: number) =>
      `${best} at ${decibels(bestLevel)} dB SPL, ${poorest} at ${decibels(poorestLevel)} dB SPL.`,
    significant: 'The drop exceeds the critical difference.',
    chance: 'The drop lies within the critical difference: it may be chance.',
    exceeds: (names: readonly string[]) => `Exceeds the limit for ${names.join('; ')}.`,
    exceedsNone: 'Exceeds none of the published limits.',
    'no-level-above-best': 'Rollover cannot be judged: the best score is at the highest level.',
    'nothing-correct': 'Rollover cannot be judged: nothing was right at any level.',
    criteria,
  },
  how: 'How computed',
  state: { verified: (name: string, day: string) => `Verified by ${name}, ${day}`, notVerified: 'Not verified' },
  enteredBy: (name: string, day: string) => `Entered by ${name}, ${day}`,
  closed: (name: string, day: string, reason: string) => `${name}, ${day}: ${reason}`,
  acts: {
    verify: 'Verify',
    supersede: 'Mark superseded',
    error: 'Entered in error',
    reinstate: 'Make current again',
  },
  verifyTitle: 'Verify this speech test',
  verifyText: 'You confirm that score, list, level, ear, condition and date are right.',
  done: 'Done.',
  sentence: (ear: string, condition: string, material: string, level: string, score: string, day: string) =>
    `${ear}, ${condition}, ${material}, ${level}: ${score} (${day})`,
}
