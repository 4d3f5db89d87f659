import { z } from 'zod'
import { CalendarDay, CaseId, Moment, ParticipantId, Rank } from '../board/identity.ts'
import { CasePhase } from '../board/records/case-header.ts'
import { Role } from '../board/roles.ts'
import { CouplingSite, DeviceClass } from '../devices/classes.ts'
import { Ear } from '../units/frequencies.ts'

/** Requests and answers of the HTTP API, shared by the server that answers and the pages that ask. */

/** Bounds of what people type into the forms that these requests carry. */
export const nameLength = 80
export const labelLength = 160

const singleLine = (length: number) =>
  z
    .string()
    .trim()
    .min(1)
    .max(length)
    .regex(/^\P{Cc}*$/u, 'one line, without control characters')

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
export const Me = z.strictObject({ participant: Person.nullable(), isOwner: z.boolean() })
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
    expiresAt: Moment.nullable(),
  }),
])
export type InvitationPreview = z.infer<typeof InvitationPreview>

/** POST /api/join */
export const JoinRequest = z.strictObject({
  token: z.string().min(1).max(200),
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
  phase: CasePhase.nullable(),
  ear: Ear.nullable(),
  deviceClass: DeviceClass.nullable(),
  couplingSite: CouplingSite.nullable(),
  openQuestions: z.int().min(0),
  contingenciesMet: z.int().min(0),
  nextVisitDue: CalendarDay.nullable(),
  updatedAt: Moment,
})
export type CaseProjection = z.infer<typeof CaseProjection>

/** A case in a list, with the caller's own role in it. */
export const CaseSummary = z.strictObject({
  ...CaseProjection.shape,
  id: CaseId,
  programme: ProgrammeId,
  rank: Rank,
  createdAt: Moment,
  role: Role,
})
export type CaseSummary = z.infer<typeof CaseSummary>

/** GET /api/programmes */
export const ProgrammeList = z.strictObject({ programmes: z.array(Programme) })
export type ProgrammeList = z.infer<typeof ProgrammeList>

/** GET /api/programmes/:id: the programme with those of its cases that the caller may see, in order. */
export const ProgrammeDetail = z.strictObject({ programme: Programme, cases: z.array(CaseSummary) })
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
  people: z.array(z.strictObject({ ...Person.shape, role: Role.nullable() })),
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
  expiresAt: Moment.nullish(),
  /** Those who joined lose access after this. */
  accessUntil: Moment.nullish(),
})
export type NewInvitation = z.infer<typeof NewInvitation>

export const Invitation = z.strictObject({
  id: InvitationId,
  label: z.string(),
  role: Role,
  scope: InvitationScope,
  createdAt: Moment,
  expiresAt: Moment.nullable(),
  accessUntil: Moment.nullable(),
  revokedAt: Moment.nullable(),
  uses: z.int().min(0),
})
export type Invitation = z.infer<typeof Invitation>

/** The only time that the link is told: the server keeps its hash alone. */
export const CreatedInvitation = z.strictObject({ invitation: Invitation, path: z.string() })
export type CreatedInvitation = z.infer<typeof CreatedInvitation>

/** GET /api/invitations */
export const InvitationList = z.strictObject({ invitations: z.array(Invitation) })
export type InvitationList = z.infer<typeof InvitationList>

/** GET /healthz */
export const Health = z.strictObject({ status: z.literal('ok') })
export type Health = z.infer<typeof Health>
