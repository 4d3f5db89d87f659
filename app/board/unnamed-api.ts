import { askApi, tellApi } from '@/app/api-client.ts'
import type { CaseId, ParticipantId } from '@/lib/board/identity.ts'
import {
  AskedUnnamed,
  type UnnamedAuthor,
  UnnamedAuthors,
  type UnnamedQuestion,
  type UnnamedReply,
} from '@/lib/interchange/unnamed.ts'

const path = (caseId: CaseId, author?: ParticipantId) =>
  `/api/cases/${encodeURIComponent(caseId)}/unnamed${author === undefined ? '' : `/${encodeURIComponent(author)}`}` as const

/** Asks without a name. @returns the author that stands for this person. @throws ApiFault */
export const askUnnamed = async (caseId: CaseId, question: UnnamedQuestion): Promise<ParticipantId> =>
  (await askApi(path(caseId), AskedUnnamed, { method: 'POST', body: question })).author

/** What the asker does to such a question afterwards. @throws ApiFault */
export const tellUnnamed = (
  caseId: CaseId,
  author: ParticipantId,
  act: '' | '/reply' | '/withdraw',
  body: UnnamedQuestion | UnnamedReply | Record<string, never>,
): Promise<void> => tellApi(`${path(caseId, author)}${act}`, { method: 'POST', body })

/** What this person may know of the authors without a name. @throws ApiFault */
export const listUnnamed = async (caseId: CaseId, signal: AbortSignal): Promise<readonly UnnamedAuthor[]> =>
  (await askApi(path(caseId), UnnamedAuthors, { signal })).authors
