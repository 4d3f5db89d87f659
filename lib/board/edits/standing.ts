import type * as Y from 'yjs'
import type { RecordId } from '../identity.ts'
import { changeRecord, type Pen } from './writing.ts'

type TestKind = 'tests' | 'speechTests'

/** Signs that a test of either kind is what was measured. */
export function verify(doc: Y.Doc, pen: Pen, kind: TestKind, id: RecordId): void {
  changeRecord(doc, kind, id, { verification: { by: pen.participant, at: pen.now().toISOString() } })
}

export interface WhyClosed {
  readonly state: 'superseded' | 'entered-in-error'
  readonly reason: string
  readonly supersededBy?: RecordId | undefined
}

/** Marks a test of either kind as superseded or entered in error, with the reason. */
export function close(
  doc: Y.Doc,
  pen: Pen,
  kind: TestKind,
  id: RecordId,
  { state, reason, supersededBy }: WhyClosed,
): void {
  const closing = {
    by: pen.participant,
    at: pen.now().toISOString(),
    reason,
    ...(supersededBy === undefined ? {} : { supersededBy }),
  }
  changeRecord(doc, kind, id, { state, closing })
}
