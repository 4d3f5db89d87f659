import { CaseId } from './identity.ts'
import type { DocumentKind } from './records.ts'

/** Name of a document on the wire and in the store, for example `floor.c-7f3a`. */
export const documentName = (kind: DocumentKind, caseId: CaseId): string => `${kind}.${caseId}`

/** The parts of a document name; undefined when it is not one of ours. */
export function parseDocumentName(name: string): { readonly kind: DocumentKind; readonly caseId: CaseId } | undefined {
  const parts = /^(record|floor)\.(.+)$/.exec(name)
  const caseId = CaseId.safeParse(parts?.[2])
  return parts && caseId.success ? { kind: parts[1] as DocumentKind, caseId: caseId.data } : undefined
}
