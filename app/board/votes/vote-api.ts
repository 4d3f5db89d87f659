import { askApi, tellApi } from '@/app/api-client.ts'
import type { CaseId, RecordId } from '@/lib/board/identity.ts'
import type { Ballot } from '@/lib/board/records/vote.ts'
import { OwnBallot } from '@/lib/interchange/api.ts'

const path = (caseId: CaseId, vote: RecordId) =>
  `/api/cases/${encodeURIComponent(caseId)}/votes/${encodeURIComponent(vote)}` as const

/** What the caller may know of an open vote: their own ballot, and for the moderator how many voted. @throws ApiFault */
export const askBallot = (caseId: CaseId, vote: RecordId): Promise<OwnBallot> => askApi(path(caseId, vote), OwnBallot)

/** Casts or changes the caller's ballot. @throws ApiFault */
export const castBallot = (caseId: CaseId, vote: RecordId, ballot: Ballot): Promise<void> =>
  tellApi(`${path(caseId, vote)}/ballot`, { method: 'POST', body: ballot })

/** Ends a vote; its result comes with the record. @throws ApiFault */
export const closeVote = (caseId: CaseId, vote: RecordId): Promise<void> =>
  tellApi(`${path(caseId, vote)}/close`, { method: 'POST', body: {} })
