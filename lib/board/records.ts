import type * as z from 'zod/mini'
import { Annotation } from './records/annotation.ts'
import { CaseHeader } from './records/case-header.ts'
import { Contingency } from './records/contingency.ts'
import { FitMeasurement } from './records/fit-measurement.ts'
import { HearingTest } from './records/hearing-test.ts'
import { MainScreen } from './records/main-screen.ts'
import { Note } from './records/note.ts'
import { OperativeStep } from './records/operative-step.ts'
import { Picture, pictureLimits } from './records/picture.ts'
import { Plan } from './records/plan.ts'
import { Backing, Question, Reply } from './records/question.ts'
import { ForecastRecord, ProfileRecord, ScenarioRecord } from './records/sealed-record.ts'
import { SpeechTest } from './records/speech-test.ts'
import { StepException } from './records/step-exception.ts'
import { UpNext } from './records/up-next.ts'
import { VideoDelay } from './records/video-delay.ts'
import { Visit } from './records/visit.ts'
import { VisitItem } from './records/visit-item.ts'
import { Vote } from './records/vote.ts'
import type { Hand, Role } from './roles.ts'

export type DocumentKind = 'record' | 'floor'

/** A kind of record: where it lives, what it must parse as, and whose hands may do what to it. */
export interface RecordKind {
  readonly document: DocumentKind
  readonly schema: z.ZodMiniType
  /** fields that are shared types of their own instead of plain values */
  readonly nested?: Readonly<Record<string, 'map' | 'text'>>
  /** one record only, under the id `only`; its stamp is renewed by every edit */
  readonly single?: true
  /** never changed and never removed by anybody once it is made */
  readonly sealed?: true
  /** made by the server alone, which the roles of `create` ask for it over HTTP */
  readonly byServer?: true
  readonly create: readonly Role[]
  /** who may change which field afterwards; a field that is not named never changes */
  readonly change: Readonly<Record<string, readonly Hand[]>>
  readonly remove: readonly Hand[]
  /** fields of the form `{ by, at, ... }`: whoever writes one signs it with their own name */
  readonly signed?: readonly string[]
  /** fields that hold the id of whoever writes them */
  readonly named?: readonly string[]
  /** `from>to` and whose hand; a move that is not named is refused */
  readonly moves?: Readonly<Record<string, readonly Hand[]>>
  /** the states in which a record may be created */
  readonly born?: readonly string[]
  /** whose ballots a vote takes; they are cast beside the documents (server/votes) */
  readonly voters?: readonly Role[]
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
const testFields = {
  performedOn: clinic,
  visit: clinic,
  note: clinic,
  state: clinic,
  verification: clinic,
  closing: clinic,
} as const

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
      operatedOn: clinic,
      consent: clinic,
      pathology: clinic,
      tags: clinic,
      reopened: clinic,
    },
    signed: ['consent', 'reopened'],
    remove: [],
    most: 1,
  },
  tests: {
    document: 'record',
    schema: HearingTest,
    nested: { points: 'map' },
    create: clinic,
    change: {
      ...testFields,
      airTransducer: clinic,
      boneTransducer: clinic,
      device: clinic,
      points: clinic,
      repeatAt1000: clinic,
    },
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
      receptionThreshold: clinic,
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
      earCanal: clinic,
      earChanges: clinic,
      approach: clinic,
      aim: clinic,
    },
    remove: [],
    most: 1,
  },
  fitMeasurements: {
    document: 'record',
    schema: FitMeasurement,
    create: clinic,
    change: {
      place: clinic,
      roomFor: clinic,
      distanceMm: clinic,
      imaging: clinic,
      voxelMm: clinic,
      sliceSpacingMm: clinic,
      direction: clinic,
      observerSdMm: clinic,
      scannedOn: clinic,
      remark: clinic,
    },
    remove: ['author', 'moderator'],
    most: 100,
  },
  profiles: {
    document: 'record',
    schema: ProfileRecord,
    sealed: true,
    create: clinic,
    change: {},
    remove: [],
    most: 50,
  },
  scenarios: {
    document: 'record',
    schema: ScenarioRecord,
    sealed: true,
    create: clinic,
    change: {},
    remove: [],
    most: 200,
  },
  forecasts: {
    document: 'record',
    schema: ForecastRecord,
    sealed: true,
    create: ['team'],
    change: {},
    remove: [],
    most: 50,
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
      needs: clinic,
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
      // two moves of a page without a link arrive as one
      'left-out>done': clinic,
      'done>left-out': clinic,
    },
    // a step that was added and marked without a link arrives as it then stands
    born: ['ahead', 'under-way', 'done', 'left-out'],
    most: 200,
  },
  pictures: {
    document: 'record',
    schema: Picture,
    byServer: true,
    create: clinic,
    change: { caption: ['author', 'moderator'], step: ['author', 'moderator'] },
    // Only a withdrawal takes one away, and its bytes with it.
    remove: [],
    most: pictureLimits.ofCase,
  },
  stepExceptions: {
    document: 'record',
    schema: StepException,
    create: clinic,
    change: {},
    remove: [],
    most: 1000,
  },
  notes: {
    document: 'record',
    schema: Note,
    nested: { body: 'text' },
    create: clinic,
    change: { kind: clinic, rank: clinic, cites: clinic, body: clinic, step: clinic, struck: ['author', 'moderator'] },
    signed: ['struck'],
    remove: [],
    most: 1000,
  },
  contingencies: {
    document: 'record',
    schema: Contingency,
    create: clinic,
    change: { rank: clinic, trigger: clinic, plan: clinic, state: clinic, step: clinic, moved: clinic, acted: clinic },
    signed: ['moved', 'acted'],
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
  visits: {
    document: 'record',
    schema: Visit,
    nested: { complications: 'map' },
    create: clinic,
    change: {
      plannedOn: clinic,
      state: clinic,
      held: clinic,
      settings: clinic,
      findings: clinic,
      complicationsSought: clinic,
      complications: clinic,
      note: clinic,
    },
    signed: ['held'],
    remove: [],
    moves: {
      'planned>held': clinic,
      'planned>missed': clinic,
      'planned>called-off': clinic,
      'held>planned': clinic,
      'held>called-off': clinic,
      'missed>planned': clinic,
      'missed>held': clinic,
      'called-off>planned': clinic,
    },
    born: ['planned', 'held'],
    most: 200,
  },
  visitItems: {
    document: 'record',
    schema: VisitItem,
    create: clinic,
    change: { visit: clinic, words: clinic, wanted: clinic, state: clinic, done: clinic },
    signed: ['done'],
    remove: [],
    moves: { 'open>done': clinic, 'open>dropped': clinic, 'done>open': clinic, 'dropped>open': clinic },
    born: ['open'],
    most: 500,
  },
  votes: {
    document: 'record',
    schema: Vote,
    create: desk,
    change: {},
    remove: desk,
    voters: ['team', 'panel'],
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
  upNext: {
    document: 'record',
    schema: UpNext,
    create: desk,
    change: { rank: desk },
    remove: desk,
    most: 50,
  },
  questions: {
    document: 'floor',
    schema: Question,
    create: speakers,
    change: {
      text: ['author'],
      anchor: ['author'],
      state: clinic,
      rank: desk,
      foldedInto: desk,
      answer: clinic,
      deferredTo: desk,
      movedAt: clinic,
      movedBy: clinic,
      themes: desk,
    },
    signed: ['answer'],
    named: ['movedBy'],
    remove: ['author'],
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
      // what a moderator did by mistake is taken back to where it was
      'answered>deferred': desk,
      'deferred>raised': desk,
      'deferred>called': desk,
      // months later a visit answers it, and no moderator is there
      'deferred>answered': clinic,
      'deferred>set-aside': desk,
      'set-aside>raised': desk,
      'set-aside>called': desk,
      'set-aside>deferred': desk,
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
  videoDelays: {
    document: 'floor',
    schema: VideoDelay,
    create: speakers,
    change: {},
    remove: ['author'],
    most: 2000,
  },
} as const satisfies Record<string, RecordKind>

export type KindName = keyof typeof recordKinds
export type RecordOf<K extends KindName> = z.infer<(typeof recordKinds)[K]['schema']>

export const kindNames = Object.keys(recordKinds) as KindName[]
export const isKindName = (name: string): name is KindName => Object.hasOwn(recordKinds, name)
export const kindOf = (name: KindName): RecordKind => recordKinds[name]
export const kindsIn = (document: DocumentKind): KindName[] =>
  kindNames.filter((name) => recordKinds[name].document === document)
