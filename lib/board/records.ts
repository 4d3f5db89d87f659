import type { z } from 'zod'
import { Annotation } from './records/annotation.ts'
import { CaseHeader } from './records/case-header.ts'
import { Contingency } from './records/contingency.ts'
import { HearingTest } from './records/hearing-test.ts'
import { MainScreen } from './records/main-screen.ts'
import { Note } from './records/note.ts'
import { OperativeStep } from './records/operative-step.ts'
import { Plan } from './records/plan.ts'
import { Backing, Question, Reply } from './records/question.ts'
import { SpeechTest } from './records/speech-test.ts'
import type { Hand, Role } from './roles.ts'

export type DocumentKind = 'record' | 'floor'

/** A kind of record: where it lives, what it must parse as, and whose hands may do what to it. */
export interface RecordKind {
  readonly document: DocumentKind
  readonly schema: z.ZodType
  /** fields that are shared types of their own instead of plain values */
  readonly nested?: Readonly<Record<string, 'map' | 'text'>>
  /** one record only, under the id `only`; its stamp is renewed by every edit */
  readonly single?: true
  readonly create: readonly Role[]
  /** who may change which field afterwards; a field that is not named never changes */
  readonly change: Readonly<Record<string, readonly Hand[]>>
  readonly remove: readonly Hand[]
  /** fields of the form `{ by, at, ... }`: whoever writes one signs it with their own name */
  readonly signed?: readonly string[]
  /** `from>to` and whose hand; a move that is not named is refused */
  readonly moves?: Readonly<Record<string, readonly Hand[]>>
  /** the states in which a record may be created */
  readonly born?: readonly string[]
  readonly most: number
}

const desk = ['moderator'] as const
const clinic = ['moderator', 'team'] as const
const speakers = ['moderator', 'team', 'panel'] as const
const testMoves = {
  'current>superseded': clinic,
  'current>entered-in-error': clinic,
  'superseded>current': clinic,
  'superseded>entered-in-error': clinic,
} as const
const testFields = { performedOn: clinic, note: clinic, state: clinic, verification: clinic, closing: clinic } as const

/**
 * The one table of records and rights. Guard, API, screens, import and the guard test iterate over it.
 * Rules that need more than one field or record stand in `rules.ts`.
 */
export const recordKinds = {
  header: {
    document: 'record',
    schema: CaseHeader,
    single: true,
    create: clinic,
    change: {
      pseudonym: clinic,
      ear: clinic,
      ageYears: clinic,
      sex: clinic,
      summary: clinic,
      phase: clinic,
      consent: clinic,
    },
    signed: ['consent'],
    remove: [],
    most: 1,
  },
  tests: {
    document: 'record',
    schema: HearingTest,
    nested: { points: 'map' },
    create: clinic,
    change: { ...testFields, airTransducer: clinic, boneTransducer: clinic, device: clinic, points: clinic },
    signed: ['verification', 'closing'],
    remove: [],
    moves: testMoves,
    born: ['current'],
    most: 200,
  },
  speechTests: {
    document: 'record',
    schema: SpeechTest,
    create: clinic,
    change: {
      ...testFields,
      material: clinic,
      listName: clinic,
      items: clinic,
      right: clinic,
      speechLevel: clinic,
      noiseLevel: clinic,
    },
    signed: ['verification', 'closing'],
    remove: [],
    moves: testMoves,
    born: ['current'],
    most: 200,
  },
  annotations: {
    document: 'record',
    schema: Annotation,
    create: clinic,
    change: { text: ['author'], place: ['author', 'moderator'], test: ['author'] },
    remove: ['author', 'moderator'],
    most: 500,
  },
  plan: {
    document: 'record',
    schema: Plan,
    single: true,
    create: clinic,
    change: {
      ear: clinic,
      deviceClass: clinic,
      couplingSite: clinic,
      malleus: clinic,
      incus: clinic,
      stapes: clinic,
      approach: clinic,
      aim: clinic,
    },
    remove: [],
    most: 1,
  },
  steps: {
    document: 'record',
    schema: OperativeStep,
    create: clinic,
    change: {
      rank: clinic,
      title: clinic,
      check: clinic,
      hazard: clinic,
      state: clinic,
      startedAt: clinic,
      endedAt: clinic,
    },
    remove: clinic,
    moves: {
      'ahead>under-way': clinic,
      'ahead>done': clinic,
      'ahead>left-out': clinic,
      'under-way>done': clinic,
      'under-way>ahead': clinic,
      'under-way>left-out': clinic,
      'done>under-way': clinic,
      'done>ahead': clinic,
      'left-out>ahead': clinic,
      'left-out>under-way': clinic,
    },
    born: ['ahead'],
    most: 200,
  },
  notes: {
    document: 'record',
    schema: Note,
    nested: { body: 'text' },
    create: clinic,
    change: { kind: clinic, rank: clinic, cites: clinic, body: clinic, struck: ['author', 'moderator'] },
    signed: ['struck'],
    remove: [],
    most: 1000,
  },
  contingencies: {
    document: 'record',
    schema: Contingency,
    create: clinic,
    change: { rank: clinic, trigger: clinic, plan: clinic, state: clinic, moved: clinic },
    signed: ['moved'],
    remove: [],
    moves: {
      'watching>met': clinic,
      'watching>stood-down': clinic,
      'met>watching': clinic,
      'met>acted-on': clinic,
      'met>stood-down': clinic,
      'acted-on>watching': clinic,
      'stood-down>watching': clinic,
    },
    born: ['watching'],
    most: 200,
  },
  mainScreen: {
    document: 'record',
    schema: MainScreen,
    single: true,
    create: desk,
    change: { showing: desk },
    remove: [],
    most: 1,
  },
  questions: {
    document: 'floor',
    schema: Question,
    create: speakers,
    change: {
      text: ['author'],
      anchor: ['author'],
      state: desk,
      rank: desk,
      foldedInto: desk,
      answer: clinic,
      deferredTo: desk,
      movedAt: desk,
    },
    signed: ['answer'],
    remove: [],
    moves: {
      'raised>called': desk,
      'raised>answered': desk,
      'raised>deferred': desk,
      'raised>set-aside': desk,
      'called>raised': desk,
      'called>answered': desk,
      'called>deferred': desk,
      'called>set-aside': desk,
      'answered>raised': desk,
      'answered>called': desk,
      'deferred>raised': desk,
      'deferred>called': desk,
      'deferred>answered': desk,
      'deferred>set-aside': desk,
      'set-aside>raised': desk,
    },
    born: ['raised'],
    most: 2000,
  },
  replies: {
    document: 'floor',
    schema: Reply,
    create: speakers,
    change: { text: ['author'] },
    remove: ['author', 'moderator'],
    most: 5000,
  },
  backings: {
    document: 'floor',
    schema: Backing,
    create: speakers,
    change: {},
    remove: ['author'],
    most: 20_000,
  },
} as const satisfies Record<string, RecordKind>

export type KindName = keyof typeof recordKinds
export type RecordOf<K extends KindName> = z.infer<(typeof recordKinds)[K]['schema']>

export const kindNames = Object.keys(recordKinds) as KindName[]
export const isKindName = (name: string): name is KindName => Object.hasOwn(recordKinds, name)
export const kindOf = (name: KindName): RecordKind => recordKinds[name]
export const kindsIn = (document: DocumentKind): KindName[] =>
  kindNames.filter((name) => recordKinds[name].document === document)
