import type { SpeechToneGrade } from '@/lib/audiometry/speech-agreement.ts'
import type { SpeechTest } from '@/lib/board/records/speech-test.ts'
import type { RolloverCriterion } from '@/lib/speech/rollover.ts'
import type { TransferMaterial } from '@/lib/speech/score-transfer.ts'
import { agreements, speechMaterial, toneAverages } from './speech-terms.ts'

type SpeechMeasured = 'score' | 'reception'

const decibels = (value: number): string => `${Math.round(value * 10) / 10}`.replace('-', '\u2212')
const percent = (proportion: number): string => `${Math.round(100 * proportion)} %`

const material: Record<SpeechTest['material'], string> = speechMaterial

const criteria: Record<RolloverCriterion['id'], string> = {
  'pb-jerger-1971': 'PB words, Jerger and Jerger 1971',
  'nu6-bess-1979': 'NU-6, Bess et al. 1979',
  'nu6-meyer-1985': 'NU-6, Meyer and Mishler 1985',
}

/** Speech tests in the hearing pane: entry, list, what a score or a threshold says. */
export const speech = {
  heading: 'Speech tests',
  none: 'No speech test has been entered.',
  enter: 'Enter a score',
  enterReception: 'Enter a speech threshold',
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
    measured: 'Measured',
    receptionThreshold: 'Threshold, dB HL',
    note: 'Note',
  },
  submit: 'Enter',
  measured: { score: 'Score', reception: 'Threshold' } satisfies Record<SpeechMeasured, string>,
  keys: 'Enter takes the test from any field; the next one begins with the same setting.',
  willReplace: (count: number) =>
    count === 1
      ? 'The current one of this setting will be superseded.'
      : `The ${count} current ones of this setting will be superseded.`,
  replacedBecause: (calendarDay: string) => `Measured again on ${calendarDay}`,
  entered: (right: number, items: number) => `Entered: ${right} of ${items} right.`,
  enteredReception: (dbHl: number) => `Entered: reception threshold ${decibels(dbHl)} dB HL.`,
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
  reception: 'Speech reception threshold',
  receptionOf: (dbHl: number) => `reception threshold ${decibels(dbHl)} dB HL`,
  receptionValue: (dbHl: number) => `${decibels(dbHl)} dB HL`,
  receptionHow:
    'The level at which half of the items are right. It is held against the tones of the same ear on the same day.',
  tones: {
    agree: (apart: number, grade: SpeechToneGrade) =>
      `Agrees with the tones: ${decibels(Math.abs(apart))} dB apart (${agreements[grade]})`,
    better: (by: number) => `${decibels(by)} dB better than the tones allow`,
    poorer: (by: number) => `${decibels(by)} dB poorer than the tones lead to expect`,
    noAverage: 'Not held against the tones: 0.5, 1 and 2 kHz are not all measured.',
    noTest: 'Not held against the tones: there is no audiogram of this ear on this day.',
    withDevice: 'With a device it is not held against the tones.',
  },
  toneAverage: (name: string, dbHl: number, day: string) => `${name}: ${decibels(dbHl)} dB HL (audiogram of ${day}).`,
  toneAverages,
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
  transferWords: { nu6: 'NU-6 words', 'cid-w22': 'W-22 words' } satisfies Record<TransferMaterial, string>,
  expected: {
    'as-expected': (words: string, score: string) => `As the audiogram predicts for ${words} (${score})`,
    below: (words: string, score: string) => `Below what the audiogram predicts for ${words} (${score})`,
    above: (words: string, score: string) => `Above what the audiogram predicts for ${words} (${score})`,
    'cannot-tell': (words: string, score: string) =>
      `Whether below the prediction for ${words} cannot be told (at most ${score})`,
  },
  expectedOfStandIn: {
    'as-expected': (words: string, score: string) => `As ${words} would score by this audiogram (${score})`,
    below: (words: string, score: string) => `Below what ${words} would score by this audiogram (${score})`,
    above: (words: string, score: string) => `Above what ${words} would score by this audiogram (${score})`,
    'cannot-tell': (words: string, score: string) =>
      `Whether below what ${words} would score cannot be told (at most ${score})`,
  },
  standIn: 'stand-in for this list',
  expectedRange: (lowest: number, highest: number, items: number) =>
    `${lowest} to ${highest} of ${items} right are expected by chance alone (95 %).`,
  expectedIndex: (index: number, upperBound: boolean, day: string, words: string) =>
    `Speech intelligibility index ${upperBound ? 'at most ' : ''}${index.toFixed(2)} from the audiogram of ${day}, importance of ${words}.`,
  expectedByName: (words: string) =>
    `The record names its list as ${words}; another recording of them scores differently.`,
  expectedByStandIn:
    'NU-6 words stand in: no transfer function of this list is known here, only those of NU-6 and W-22. Other words, another recording or another language score differently, so this is a rough guide only.',
  notExpected: {
    'both-ears': 'No prediction: both ears together.',
    material: 'No prediction: of this material no transfer function is known here, and none stands in for it.',
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
  sentence: (parts: readonly string[]) => parts.join(', '),
}
