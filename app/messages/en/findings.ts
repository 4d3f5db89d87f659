import type { FindingFacts, FindingId, FindingPlace } from '@/lib/audiometry/findings.ts'
import type { AirTransducer } from '@/lib/audiometry/tested-ear.ts'
import type { Route } from '@/lib/audiometry/thresholds.ts'
import type { Ear, FrequencyHz } from '@/lib/units/frequencies.ts'
import { agreements, toneAverages } from './speech-terms.ts'

/** What a colleague would say: what was found, on which numbers, and what to do about it. */
export interface FindingText {
  readonly what: string
  readonly why: string
  readonly whatToDo: string
}

export type FindingSentences = {
  readonly [Id in FindingId]: (why: Readonly<FindingFacts[Id]>, where: FindingPlace) => FindingText
}

const earphone: Readonly<Record<AirTransducer, string>> = {
  'supra-aural': 'supra-aural earphones',
  'circum-aural': 'circum-aural earphones',
  insert: 'insert earphones',
}

const conduction: Readonly<Record<Route, string>> = {
  air: 'air-conduction',
  bone: 'bone-conduction',
  'sound-field': 'sound-field',
  aided: 'aided',
}

const other = (ear: Ear | undefined): string => (ear === 'right' ? 'left' : 'right')
const own = (ear: Ear | undefined): string => ear ?? 'this'
const at = (frequency: FrequencyHz | undefined): string => (frequency === undefined ? '' : ` at ${hertz(frequency)}`)
const hertz = (frequency: FrequencyHz): string => (frequency < 1000 ? `${frequency} Hz` : `${frequency / 1000} kHz`)
const db = (value: number): string => `${Math.round(value * 10) / 10}`.replace('-', '\u2212')

/** A finding in words, from its code and the numbers it rests on. */
export const findingSentences: FindingSentences = {
  'mask-air-bsa-1': ({ level, otherEarAir, difference, limit, transducer }, { ear, frequency }) => ({
    what: `The ${own(ear)} air-conduction threshold${at(frequency)} may be heard by the ${other(ear)} ear.`,
    why: `Not masked, the ears are ${db(difference)} dB apart (${db(level)} and ${db(otherEarAir)} dB HL); from ${db(limit)} dB on, ${earphone[transducer]} can be heard across the head.`,
    whatToDo: `Repeat the ${own(ear)} ear by air conduction with the ${other(ear)} ear masked.`,
  }),
  'mask-bone-bsa-2': ({ boneLevel, airLevel, difference, limit }, { ear, frequency }) => ({
    what: `It is not known which inner ear gave the bone-conduction threshold${at(frequency)}.`,
    why: `Bone conduction without masking is ${db(boneLevel)} dB HL, ${db(difference)} dB better than air conduction of the ${own(ear)} ear (${db(airLevel)} dB HL); the rule asks for masking from ${db(limit)} dB on.`,
    whatToDo: `Test the ${own(ear)} ear by bone conduction with the ${other(ear)} ear masked.`,
  }),
  'mask-air-bsa-3': ({ level, otherEarBone, difference, limit, transducer }, { ear, frequency }) => ({
    what: `The ${own(ear)} air-conduction threshold${at(frequency)} may be heard by the ${other(ear)} inner ear.`,
    why: `Not masked, it is ${db(level)} dB HL, ${db(difference)} dB above the bone conduction that may belong to the ${other(ear)} ear (${db(otherEarBone)} dB HL); from ${db(limit)} dB on, ${earphone[transducer]} can be heard across the head.`,
    whatToDo: `Repeat the ${own(ear)} ear by air conduction with the ${other(ear)} ear masked.`,
  }),
  'mask-air-asha': ({ level, otherEarBone, difference, limit, transducer }, { ear, frequency }) => ({
    what: `The ${own(ear)} air-conduction threshold${at(frequency)} may be heard by the ${other(ear)} inner ear.`,
    why: `It is ${db(level)} dB HL, ${db(difference)} dB above bone conduction of the ${other(ear)} ear (${db(otherEarBone)} dB HL); the least interaural attenuation of ${earphone[transducer]} here is ${db(limit)} dB.`,
    whatToDo: `Repeat the ${own(ear)} ear by air conduction with the ${other(ear)} ear masked.`,
  }),
  'mask-bone-asha': ({ boneLevel, airLevel, difference, limit }, { ear, frequency }) => ({
    what: `The ${own(ear)} bone-conduction threshold${at(frequency)} needs masking.`,
    why: `The gap without masking is ${db(difference)} dB (air ${db(airLevel)}, bone ${db(boneLevel)} dB HL), more than ${db(limit)} dB.`,
    whatToDo: `Test the ${own(ear)} ear by bone conduction with the ${other(ear)} ear masked.`,
  }),
  'masking-dilemma': ({ least, most, transducer }, { ear, route, frequency }) => ({
    what: `The ${own(ear)} ear cannot be masked for its ${conduction[route]} threshold${at(frequency)} with ${earphone[transducer]}.`,
    why: `At least ${db(least)} dB HL would be needed, but from ${db(most)} dB HL on the noise reaches the ear under test.`,
    whatToDo: 'Use insert earphones for the masking, or call the threshold uncertain and rely on other tests.',
  }),
  'overmasking-risk': ({ least, most, transducer }, { ear, route, frequency }) => ({
    what: `The masked ${own(ear)} ${conduction[route]} threshold${at(frequency)} may be too poor.`,
    why: `With ${earphone[transducer]} the noise must be at least ${db(least)} dB HL, but from ${db(most)} dB HL on it reaches the ear under test: no level is safe.`,
    whatToDo: 'Repeat with insert earphones for the masking, or call the threshold uncertain.',
  }),
  'possible-shadow-curve': ({ frequencies, least, most, transducer }, { ear }) => ({
    what: `The ${own(ear)} air-conduction curve may be the shadow of the ${other(ear)} ear.`,
    why: `At ${frequencies.map(hertz).join(', ')} it runs ${db(least)} to ${db(most)} dB above the ${other(ear)} inner ear, as tones do that cross the head from ${earphone[transducer]}.`,
    whatToDo: `Repeat the ${own(ear)} ear with the ${other(ear)} ear masked; until then the ear may be much poorer.`,
  }),
  'cross-hearing-not-excluded': ({ level, from }, { ear, frequency }) => ({
    what: `Hearing across the head is not excluded for the ${own(ear)} ear${at(frequency)}.`,
    why: `The threshold is ${db(level)} dB HL (caution is advised from ${db(from)} dB HL on) and the ${other(ear)} ear was not tested there.`,
    whatToDo: `Test the ${other(ear)} ear${at(frequency)}.`,
  }),
  'possibly-vibrotactile': ({ level, feltFrom, transducer }, { ear, frequency }) => ({
    what: `The ${own(ear)} bone-conduction response${at(frequency)} may have been felt instead of heard.`,
    why: `On average the vibrator on the ${transducer === 'bone-forehead' ? 'forehead' : 'mastoid'} is felt from ${db(feltFrom)} dB HL on; the response is at ${db(level)} dB HL.`,
    whatToDo: 'Ask the patient whether it was heard; do not count on an air-bone gap at this frequency.',
  }),
  'bone-worse-than-air': ({ boneLevel, airLevel, difference, limit }, { ear, frequency }) => ({
    what: `Bone conduction of the ${own(ear)} ear is worse than air conduction${at(frequency)}.`,
    why: `Bone ${db(boneLevel)} dB HL, air ${db(airLevel)} dB HL: ${db(difference)} dB apart; from ${db(limit)} dB on, test-retest error does not explain it.`,
    whatToDo: 'Check the place of the vibrator, the calibration and the entry, and repeat.',
  }),
  'beyond-audiometer': ({ level, limit }, { ear, route, frequency }) => ({
    what: `The ${own(ear)} ${conduction[route]} level${at(frequency)} is beyond what audiometers give.`,
    why: `${db(level)} dB HL was entered; a type 1 audiometer reaches ${db(limit)} dB HL there.`,
    whatToDo: 'Check the entry: another frequency, another route, or no response at the limit.',
  }),
  'off-step': ({ level, step }, { ear, route, frequency }) => ({
    what: `The ${own(ear)} ${conduction[route]} level${at(frequency)} is not on the step of the audiometer.`,
    why: `${db(level)} dB HL is not a multiple of ${db(step)} dB.`,
    whatToDo: 'Check the entry, or declare the smaller step that was used.',
  }),
  'speech-better-than-tones': ({ speech, tones, difference, agreement, average }, { ear }) => ({
    what: `The ${own(ear)} ear hears speech better than its tones allow.`,
    why: `Speech reception threshold ${db(speech)} dB HL, ${toneAverages[average]} ${db(tones)} dB HL: ${db(-difference)} dB better (${agreements[agreement]} agreement); up to 10 dB is accepted.`,
    whatToDo: 'Suspect that the tone thresholds are too poor; instruct again and repeat, or use objective tests.',
  }),
  'speech-poorer-than-tones': ({ speech, tones, difference, agreement, average }, { ear }) => ({
    what: `The ${own(ear)} ear hears speech worse than its tones lead to expect.`,
    why: `Speech reception threshold ${db(speech)} dB HL, ${toneAverages[average]} ${db(tones)} dB HL: ${db(difference)} dB poorer (${agreements[agreement]} agreement); up to 10 dB is accepted.`,
    whatToDo: 'Look for a steep slope, poor recognition or the wrong language of the list; repeat if none explains it.',
  }),
  'lone-4-khz-gap': ({ gap }, { ear }) => ({
    what: `The gap of the ${own(ear)} ear at 4 kHz alone is probably not conductive.`,
    why: `${db(gap)} dB at 4 kHz with closed gaps at 0.5 to 2 kHz fits the known error of the bone-conduction reference there.`,
    whatToDo: 'Do not call the loss mixed for this gap alone.',
  }),
  'retest-1-khz': ({ first, second, difference }, { ear }) => ({
    what: `The two thresholds of the ${own(ear)} ear at 1 kHz do not agree.`,
    why: `${db(first)} and ${db(second)} dB HL are ${db(difference)} dB apart; 5 dB is accepted.`,
    whatToDo:
      difference >= 10
        ? 'Repeat further frequencies, after instructing again, until repeats agree.'
        : 'Repeat 1 kHz, and further frequencies if it still differs.',
  }),
  'ears-swapped': ({ sameEar, otherEar, frequencies, earlierDate }) => ({
    what: 'Right and left may have been exchanged.',
    why: `Against the test of ${earlierDate}, each ear is ${db(sameEar)} dB away from itself and ${db(otherEar)} dB from the other one (mean over ${frequencies.map(hertz).join(', ')}).`,
    whatToDo: 'Check which earphone was on which ear before anybody decides on a side.',
  }),
}
