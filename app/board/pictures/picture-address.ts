import type { CaseId, RecordId } from '@/lib/board/identity.ts'

/** Where the bytes of a photograph are. */
export const pictureAddress = (caseId: CaseId, id: RecordId): `/api/${string}` =>
  `/api/cases/${encodeURIComponent(caseId)}/pictures/${encodeURIComponent(id)}`
