import type { Ear, FrequencyHz } from '../units/frequencies.ts'
import type { Provenance } from './provenance.ts'
import type { SpeechToneAverage, SpeechToneGrade } from './speech-agreement.ts'
import type { AirTransducer, BoneTransducer } from './tested-ear.ts'
import type { Route } from './thresholds.ts'

/** `urgent`: the number may belong to the other ear or be wrong; `check`: look again; `remark`: good to know. */
export type Severity = 'urgent' | 'check' | 'remark'

interface SpeechToneFacts {
  /** Speech reception threshold and average of the tones, in dB HL. */
  readonly speech: number
  readonly tones: number
  readonly difference: number
  readonly agreement: SpeechToneGrade
  readonly average: SpeechToneAverage
}

/** What each finding rests on: levels in dB HL, differences in dB. */
export interface FindingFacts {
  'mask-air-bsa-1': { level: number; otherEarAir: number; difference: number; limit: number; transducer: AirTransducer }
  'mask-bone-bsa-2': { boneLevel: number; airLevel: number; difference: number; limit: number }
  'mask-air-bsa-3': {
    level: number
    otherEarBone: number
    difference: number
    limit: number
    transducer: AirTransducer
  }
  'mask-air-asha': { level: number; otherEarBone: number; difference: number; limit: number; transducer: AirTransducer }
  'mask-bone-asha': { boneLevel: number; airLevel: number; difference: number; limit: number }
  'masking-dilemma': { least: number; most: number; transducer: AirTransducer }
  'overmasking-risk': { least: number; most: number; transducer: AirTransducer }
  'possible-shadow-curve': {
    frequencies: readonly FrequencyHz[]
    least: number
    most: number
    transducer: AirTransducer
  }
  'cross-hearing-not-excluded': { level: number; from: number }
  'possibly-vibrotactile': { level: number; feltFrom: number; transducer: BoneTransducer }
  'bone-worse-than-air': { boneLevel: number; airLevel: number; difference: number; limit: number }
  'beyond-audiometer': { level: number; limit: number }
  'off-step': { level: number; step: number }
  'speech-better-than-tones': SpeechToneFacts
  'speech-poorer-than-tones': SpeechToneFacts
  'lone-4-khz-gap': { gap: number }
  'retest-1-khz': { first: number; second: number; difference: number }
  'ears-swapped': { sameEar: number; otherEar: number; frequencies: readonly FrequencyHz[]; earlierDate: string }
}

export type FindingId = keyof FindingFacts

export interface FindingRule extends Provenance {
  readonly severity: Severity
}

const bsa2018 = 'BSA Recommended Procedure, pure-tone audiometry, 2018'
const asha2005 = 'ASHA 2005, manual pure-tone threshold audiometry'
const fromMemory = 'from memory, unconfirmed'
const boardChoice = 'common practice, no source'

export const findingRules: { readonly [Id in FindingId]: FindingRule } = {
  'mask-air-bsa-1': { severity: 'urgent', source: `${bsa2018}, rule 1`, status: fromMemory },
  'mask-bone-bsa-2': { severity: 'urgent', source: `${bsa2018}, rule 2`, status: fromMemory },
  'mask-air-bsa-3': { severity: 'urgent', source: `${bsa2018}, rule 3`, status: fromMemory },
  'mask-air-asha': { severity: 'urgent', source: asha2005, status: fromMemory },
  'mask-bone-asha': { severity: 'urgent', source: asha2005, status: fromMemory },
  'masking-dilemma': { severity: 'check', source: 'handbook arithmetic', status: fromMemory },
  'overmasking-risk': { severity: 'check', source: 'handbook arithmetic', status: fromMemory },
  'possible-shadow-curve': {
    severity: 'urgent',
    source: 'parallel course at the interaural attenuation',
    status: boardChoice,
    reservation: 'the limits of "parallel" (three frequencies within 15 dB) are a choice of this board',
  },
  'cross-hearing-not-excluded': { severity: 'remark', source: 'ISO 8253-1:2010, 6.2.3.2', status: 'confirmed' },
  'possibly-vibrotactile': {
    severity: 'check',
    source: 'ISO 8253-1:2010, 8.4',
    status: 'confirmed',
    reservation: 'averages; people differ widely',
  },
  'bone-worse-than-air': { severity: 'check', source: 'a difference beyond test-retest error', status: boardChoice },
  'beyond-audiometer': { severity: 'check', source: 'IEC 60645-1:2017 type 1; ANSI S3.6-2018', status: fromMemory },
  'off-step': { severity: 'remark', source: 'audiometer step of 5 dB', status: boardChoice },
  'speech-better-than-tones': {
    severity: 'urgent',
    source: 'ASHA 1988, agreement of speech reception threshold and pure-tone average within 10 dB',
    status: 'confirmed',
    reservation: 'the grades good, fair and poor are from memory, unconfirmed',
  },
  'speech-poorer-than-tones': {
    severity: 'check',
    source: 'ASHA 1988, agreement of speech reception threshold and pure-tone average within 10 dB',
    status: 'confirmed',
    reservation: 'the grades good, fair and poor are from memory, unconfirmed',
  },
  'lone-4-khz-gap': {
    severity: 'remark',
    source: 'Margolis et al. 2013, false air-bone gaps at 4 kHz',
    status: 'confirmed',
  },
  'retest-1-khz': { severity: 'check', source: 'ISO 8253-1:2010, 6.2.3.2', status: 'confirmed' },
  'ears-swapped': {
    severity: 'urgent',
    source: 'comparison with the earlier test, each ear with itself and with the other',
    status: boardChoice,
  },
}

export interface FindingPlace {
  /** Absent when the finding is about both ears together. */
  readonly ear?: Ear
  readonly route: Route
  readonly frequency?: FrequencyHz
}

interface FindingOf<Id extends FindingId> extends FindingRule {
  readonly id: Id
  readonly where: FindingPlace
  /** Why it was raised: the numbers; whoever shows it makes the sentences. */
  readonly why: Readonly<FindingFacts[Id]>
}

/** Something in a hearing test that a colleague would point at. */
export type Finding = { readonly [Id in FindingId]: FindingOf<Id> }[FindingId]

export function finding<Id extends FindingId>(id: Id, where: FindingPlace, why: FindingFacts[Id]): FindingOf<Id> {
  return { id, where, why, ...findingRules[id] }
}
