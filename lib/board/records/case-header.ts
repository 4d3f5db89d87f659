import { z } from 'zod'
import { Ear } from '../../units/frequencies.ts'
import { LongText, Moment, ParticipantId, ShortText, stampFields } from '../identity.ts'

export const CasePhase = z.enum(['planning', 'in-theatre', 'follow-up', 'closed'])
export type CasePhase = z.infer<typeof CasePhase>

/** Consent of the patient to broadcasting, as recorded by a member of the team. */
export const BroadcastConsent = z.strictObject({
  state: z.enum(['recorded', 'withdrawn']),
  by: ParticipantId,
  at: Moment,
  how: ShortText.min(1),
})

/** What the case is about. `author` and `at` are those of the last edit. The patient is known by a pseudonym only. */
export const CaseHeader = z
  .strictObject({
    ...stampFields,
    pseudonym: ShortText.min(1),
    ear: Ear,
    ageYears: z.int().min(0).max(120).optional(),
    sex: z.enum(['female', 'male', 'not-stated']),
    summary: LongText,
    phase: CasePhase,
    consent: BroadcastConsent.optional(),
  })
  .refine((header) => header.phase !== 'in-theatre' || header.consent?.state === 'recorded', {
    path: ['consent'],
    message: 'consent to broadcasting is recorded before a case goes to theatre',
  })
export type CaseHeader = z.infer<typeof CaseHeader>
