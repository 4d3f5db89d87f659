import * as z from 'zod/mini'
import { CalendarDay, CaseId, Moment, ParticipantId, Rank, RecordId } from '../board/identity.ts'
import { CasePhase } from '../board/records/case-header.ts'
import { Ballot } from '../board/records/vote.ts'
import { Role } from '../board/roles.ts'
import { withdrawableKinds } from '../board/withdrawal.ts'
import { CouplingSite, DeviceClass } from '../devices/classes.ts'
import { Ear } from '../units/frequencies.ts'

/** Requests and answers of the HTTP API, shared by the server that answers and the pages that ask. */

/** Bounds of what people type into the forms that these requests carry. */
export const nameLength = 80
export const labelLength = 160

const singleLine = (length: number) =>
  z
    .string()
    .check(z.trim(), z.minLength(1), z.maxLength(length), z.regex(/^\P{Cc}*$/u, 'one line, without control characters'))

export const ProgrammeId = CaseId
export const InvitationId = CaseId

export const ApiErrorCode = z.enum([
  'bad-request',
  'not-json',
  'too-large',
  'cross-site',
  'not-signed-in',
  'not-permitted',
  'not-found',
  'method-not-allowed',
  'link-unknown',
  'link-expired',
  'link-revoked',
  'too-many-attempts',
  'conflict',
  'vote-closed',
  'too-many-requests',
  'no-consent',
  'bad-archive',
  'case-taken',
  'case-erased',
  'label-differs',
  'no-header',
  'edit-refused',
  'picture-unknown-type',
  'picture-unsupported',
  'picture-broken',
  'picture-too-large',
  'too-many-pictures',
  'unavailable',
  'internal',
])
export type ApiErrorCode = z.infer<typeof ApiErrorCode>

/** What every answer with a status of 400 or more carries. `message` says what happened and what to do. */
export const ApiError = z.strictObject({ error: z.strictObject({ code: ApiErrorCode, message: z.string() }) })
export type ApiError = z.infer<typeof ApiError>

export const Person = z.strictObject({ id: ParticipantId, name: z.string(), affiliation: z.string() })
export type Person = z.infer<typeof Person>

/** Programme or case that an invitation is for; `installation` is everything (the owner's link). */
export const InvitationScope = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('installation') }),
  z.strictObject({ kind: z.literal('programme'), id: ProgrammeId }),
  z.strictObject({ kind: z.literal('case'), id: CaseId }),
])
export type InvitationScope = z.infer<typeof InvitationScope>

/** GET /api/me. `participant` is null for somebody who has not joined. */
export const Me = z.strictObject({ participant: z.nullable(Person), isOwner: z.boolean() })
export type Me = z.infer<typeof Me>

/** GET /api/invitations/:token/preview. An unknown, a mistyped and an erased link look the same. */
export const InvitationPreview = z.discriminatedUnion('state', [
  z.strictObject({ state: z.literal('unknown') }),
  z.strictObject({ state: z.literal('revoked') }),
  z.strictObject({ state: z.literal('expired'), expiredAt: Moment }),
  z.strictObject({
    state: z.literal('open'),
    role: Role,
    scope: InvitationScope,
    /** Label of the programme or case; empty for the whole installation. */
    label: z.string(),
    expiresAt: z.nullable(Moment),
  }),
])
export type InvitationPreview = z.infer<typeof InvitationPreview>

/** POST /api/join */
export const JoinRequest = z.strictObject({
  token: z.string().check(z.minLength(1), z.maxLength(200)),
  name: singleLine(nameLength),
  affiliation: singleLine(nameLength),
})
export type JoinRequest = z.infer<typeof JoinRequest>

export const JoinAnswer = z.strictObject({
  participant: Person,
  role: Role,
  scope: InvitationScope,
  /** Path of the page to go to. */
  destination: z.string(),
})
export type JoinAnswer = z.infer<typeof JoinAnswer>

/** What is on in a programme, as far as the caller may know: `elsewhere` is a case that they were not invited to. */
export const OnNow = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('case'), id: CaseId, since: Moment }),
  z.strictObject({ kind: z.literal('elsewhere'), since: Moment }),
  /** `since` is null before the first case. */
  z.strictObject({ kind: z.literal('between'), since: z.nullable(Moment) }),
])
export type OnNow = z.infer<typeof OnNow>

/** POST /api/programmes/:id/now. The moderator brings a case on, or says that the meeting is between two. */
export const BringOn = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('case'), id: CaseId }),
  z.strictObject({ kind: z.literal('between') }),
])
export type BringOn = z.infer<typeof BringOn>

/** POST /api/programmes/:id/cases/:case/slot. When a case is planned, and the break that stands before it. */
export const CaseSlot = z.strictObject({
  plannedAt: z.nullable(Moment),
  /** What the break is called; empty for none. */
  breakBefore: z
    .string()
    .check(z.trim(), z.maxLength(labelLength), z.regex(/^\P{Cc}*$/u, 'one line, without control characters')),
})
export type CaseSlot = z.infer<typeof CaseSlot>

const casesOfDay = 200
const isWithoutRepeats = (ids: readonly string[]): boolean => new Set(ids).size === ids.length

/** POST /api/programmes/:id/order. Every case of the programme once, in the new order. */
export const CaseOrder = z.strictObject({
  cases: z.array(CaseId).check(z.maxLength(casesOfDay), z.refine(isWithoutRepeats, 'each case once')),
})
export type CaseOrder = z.infer<typeof CaseOrder>

export const Programme = z.strictObject({ id: ProgrammeId, label: z.string(), createdAt: Moment })
export type Programme = z.infer<typeof Programme>

/** POST /api/programmes */
export const NewProgramme = z.strictObject({ label: singleLine(labelLength) })
export type NewProgramme = z.infer<typeof NewProgramme>

/** POST /api/programmes/:id/cases. The label is a pseudonym, never a patient's name. */
export const NewCase = z.strictObject({ label: singleLine(labelLength) })
export type NewCase = z.infer<typeof NewCase>

/** The part of a case document that lists and series need; null where the document does not say it yet. */
export const CaseProjection = z.strictObject({
  label: z.string(),
  phase: z.nullable(CasePhase),
  ear: z.nullable(Ear),
  deviceClass: z.nullable(DeviceClass),
  couplingSite: z.nullable(CouplingSite),
  openQuestions: z.int().check(z.minimum(0)),
  contingenciesMet: z.int().check(z.minimum(0)),
  nextVisitDue: z.nullable(CalendarDay),
  updatedAt: Moment,
})
export type CaseProjection = z.infer<typeof CaseProjection>

/** A case in a list, with the caller's own role in it. */
export const CaseSummary = z.strictObject({
  ...CaseProjection.shape,
  ...CaseSlot.shape,
  id: CaseId,
  programme: ProgrammeId,
  rank: Rank,
  createdAt: Moment,
  role: Role,
})
export type CaseSummary = z.infer<typeof CaseSummary>

/** GET /api/programmes */
export const ProgrammeList = z.strictObject({
  programmes: z.array(z.strictObject({ ...Programme.shape, onNow: OnNow })),
})
export type ProgrammeList = z.infer<typeof ProgrammeList>

/**
 * GET /api/programmes/:id, and each message of /follow/:id: the programme with those of its cases that the caller may
 * see, in order.
 */
export const ProgrammeDetail = z.strictObject({
  programme: Programme,
  cases: z.array(CaseSummary),
  onNow: OnNow,
  /** The first of these cases after the one that is or was on. */
  next: z.nullable(CaseId),
  /** The caller's role in the whole programme; null for somebody who was invited to single cases. */
  role: z.nullable(Role),
})
export type ProgrammeDetail = z.infer<typeof ProgrammeDetail>

/** GET /api/cases */
export const CaseList = z.strictObject({ cases: z.array(CaseSummary) })
export type CaseList = z.infer<typeof CaseList>

/** GET /api/cases/:id. `documents` are the names to open over the sync socket. */
export const CaseDetail = z.strictObject({
  case: CaseSummary,
  programme: Programme,
  documents: z.strictObject({ record: z.string(), floor: z.string() }),
})
export type CaseDetail = z.infer<typeof CaseDetail>

/** GET /api/cases/:id/people: who may see the case or has written in it. `role` is null when access has ended. */
export const PeopleOfCase = z.strictObject({
  people: z.array(z.strictObject({ ...Person.shape, role: z.nullable(Role) })),
})
export type PeopleOfCase = z.infer<typeof PeopleOfCase>

/** POST /api/invitations */
export const NewInvitation = z.strictObject({
  role: Role,
  scope: z.discriminatedUnion('kind', [
    z.strictObject({ kind: z.literal('programme'), id: ProgrammeId }),
    z.strictObject({ kind: z.literal('case'), id: CaseId }),
  ]),
  /** For whom, in the owner's words. */
  label: singleLine(labelLength),
  /** Nobody can join after this. */
  expiresAt: z.nullish(Moment),
  /** Those who joined lose access after this. */
  accessUntil: z.nullish(Moment),
})
export type NewInvitation = z.infer<typeof NewInvitation>

export const Invitation = z.strictObject({
  id: InvitationId,
  label: z.string(),
  role: Role,
  scope: InvitationScope,
  createdAt: Moment,
  expiresAt: z.nullable(Moment),
  accessUntil: z.nullable(Moment),
  revokedAt: z.nullable(Moment),
  uses: z.int().check(z.minimum(0)),
})
export type Invitation = z.infer<typeof Invitation>

/** The only time that the link is told: the server keeps its hash alone. */
export const CreatedInvitation = z.strictObject({ invitation: Invitation, path: z.string() })
export type CreatedInvitation = z.infer<typeof CreatedInvitation>

/** GET /api/invitations */
export const InvitationList = z.strictObject({ invitations: z.array(Invitation) })
export type InvitationList = z.infer<typeof InvitationList>

/** GET /api/cases/:id/votes/:vote: the caller's own ballot, and for those who close the vote how many were cast. */
export const OwnBallot = z.strictObject({
  ballot: z.nullable(Ballot),
  turnout: z.nullable(z.int().check(z.minimum(0))),
})
export type OwnBallot = z.infer<typeof OwnBallot>

/** POST /api/cases/:id/withdrawals: takes a record back from everybody. The kind is one of `withdrawableKinds`. */
export const NewWithdrawal = z.strictObject({
  kind: z.enum(withdrawableKinds),
  id: RecordId,
  /** Kept with what was withdrawn, for the owner. */
  reason: singleLine(labelLength),
})
export type NewWithdrawal = z.infer<typeof NewWithdrawal>

/** GET /api/cases/:id/withdrawals: what was taken back, as it stood; null for a moderator who does not own the installation. */
export const WithdrawalList = z.strictObject({
  withdrawals: z.nullable(
    z.array(
      z.strictObject({
        id: CaseId,
        kind: z.string(),
        reason: z.string(),
        by: Person,
        at: Moment,
        /** the record and what went with it, as JSON */
        content: z.string(),
      }),
    ),
  ),
})
export type WithdrawalList = z.infer<typeof WithdrawalList>
/** GET /api/clock: the server's time, for pages that hold their own clock against it. */
export const ServerClock = z.strictObject({ now: Moment })
export type ServerClock = z.infer<typeof ServerClock>

/** GET /healthz */
export const Health = z.strictObject({ status: z.literal('ok') })
export type Health = z.infer<typeof Health>

/** POST /api/programmes/:id/archives/preview: what an archive holds, and how it stands to the case of its id here. */
export const CaseArchivePreview = z.strictObject({
  caseId: CaseId,
  label: z.string(),
  writtenAt: Moment,
  people: z.int(),
  kinds: z.array(
    z.strictObject({
      kind: z.string(),
      inArchive: z.int(),
      onlyInArchive: z.int(),
      same: z.int(),
      differs: z.int(),
      onlyHere: z.int(),
    }),
  ),
  /** what an archive never holds */
  leftOut: z.array(z.string()),
  /**
   * `new`: there is no such case here; `same`: it is here, record for record; `differs`: it is here with other records;
   * `taken`: it is here where the caller was not invited; `erased`: it was here and was erased
   */
  standing: z.enum(['new', 'same', 'differs', 'taken', 'erased']),
  erasedAt: z.nullable(Moment),
})
export type CaseArchivePreview = z.infer<typeof CaseArchivePreview>

/** POST /api/cases/:id/erase. The owner types the label of the case, so that no slip of the hand erases one. */
export const EraseCase = z.strictObject({ label: z.string().check(z.maxLength(labelLength * 2)) })
export type EraseCase = z.infer<typeof EraseCase>

/** The receipt of an erasure: numbers of rows, when and by whom; nothing of the patient. */
export const ErasureReceipt = z.strictObject({
  id: z.string(),
  caseId: CaseId,
  programme: ProgrammeId,
  by: z.nullable(Person),
  at: Moment,
  counts: z.strictObject({
    updates: z.int(),
    marks: z.int(),
    states: z.int(),
    ballots: z.int(),
    withdrawals: z.int(),
    unnamedAuthors: z.int(),
    pictures: z.int(),
    invitations: z.int(),
    grants: z.int(),
  }),
})
export type ErasureReceipt = z.infer<typeof ErasureReceipt>

/** GET /api/erasures */
export const ErasureList = z.strictObject({ erasures: z.array(ErasureReceipt) })
export type ErasureList = z.infer<typeof ErasureList>

/** POST /api/erasures/among: of these cases, whose copies a browser holds, those that were erased here. */
export const CasesHeld = z.strictObject({ cases: z.array(CaseId).check(z.maxLength(500)) })
export type CasesHeld = z.infer<typeof CasesHeld>
