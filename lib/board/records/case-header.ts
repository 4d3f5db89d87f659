import * as z from 'zod/mini'
import { Pathology, Tags } from '../../devices/pathology.ts'
import { Ear } from '../../units/frequencies.ts'
import { CalendarDay, LongText, Moment, ParticipantId, ShortText, stampFields } from '../identity.ts'

export const CasePhase = z.enum(['planning', 'in-theatre', 'follow-up', 'closed'])
export type CasePhase = z.infer<typeof CasePhase>

/** Consent of the patient to broadcasting, as recorded by a member of the team. */
export const BroadcastConsent = z.strictObject({
  state: z.enum(['recorded', 'withdrawn']),
  by: ParticipantId,
  at: Moment,
  how: ShortText.check(z.minLength(1)),
})

/** That a closed case was opened again, by whom and why. */
export const Reopening = z.strictObject({ by: ParticipantId, at: Moment, reason: ShortText.check(z.minLength(1)) })

/** What the case is about. `author` and `at` are those of the last edit. The patient is known by a pseudonym only. */
export const CaseHeader = z
  .strictObject({
    ...stampFields,
    pseudonym: ShortText.check(z.minLength(1)),
    ear: Ear,
    ageYears: z.optional(z.int().check(z.minimum(0), z.maximum(120))),
    sex: z.enum(['female', 'male', 'not-stated']),
    summary: LongText,
    phase: CasePhase,
    /** absent: the day on which the first step began, if one did */
    operatedOn: z.optional(CalendarDay),
    consent: z.optional(BroadcastConsent),
    /** absent: not written down */
    pathology: z.optional(Pathology),
    /** absent: none */
    tags: z.optional(Tags),
    /** the last time that the case, closed before, was opened again */
    reopened: z.optional(Reopening),
  })
  .check(
    z.refine((header) => header.phase !== 'in-theatre' || header.consent?.state === 'recorded', {
      path: ['consent'],
      message: 'consent to broadcasting is recorded before a case goes to theatre',
    }),
  )
export type CaseHeader = z.infer<typeof CaseHeader>
