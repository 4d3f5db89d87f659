import { equalityDeep } from 'lib0/function'
import { onlyId } from './identity.ts'
import type { CaseHeader } from './records/case-header.ts'
import { type KindName, kindOf } from './records.ts'
import { type Refusal, refusal } from './refusals.ts'
import type { Change, TableView } from './rules.ts'

/** What is shown of a closed case is no part of its record. */
const openForever: readonly KindName[] = ['mainScreen']

/**
 * The record of a closed case stays as it is until somebody opens it again, with a reason under their name. The floor is
 * another document and goes on: people may still discuss the case.
 */
export function closedCaseStays({ kind, id, before, after }: Change, tables: TableView): Refusal | undefined {
  if (kind === 'header') return headerStays(before as CaseHeader | undefined, after as CaseHeader | undefined)
  if (kindOf(kind).document !== 'record' || openForever.includes(kind)) return undefined
  return tables.get('header', onlyId)?.phase === 'closed' ? refusal('case-closed', `${kind}/${id}`, {}) : undefined
}

function headerStays(before: CaseHeader | undefined, after: CaseHeader | undefined): Refusal | undefined {
  const path = `header/${onlyId}`
  const isSigned = !equalityDeep(before?.reopened, after?.reopened)
  if (before?.phase !== 'closed') return isSigned ? refusal('reopened-while-open', path, {}) : undefined
  if (after?.phase === 'closed')
    return equalityDeep(bare(before), bare(after)) ? undefined : refusal('case-closed', path, {})
  return isSigned && after?.reopened !== undefined ? undefined : refusal('reopened-without-reason', path, {})
}

/** Without the stamp, which every edit renews. */
const bare = ({ author: _author, at: _at, ...header }: CaseHeader) => header
